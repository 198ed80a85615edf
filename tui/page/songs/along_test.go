package songs

import (
	"testing"

	"sparetone/drills/played/student"
	"sparetone/tui/page/player"
)

// chart is a song of four bars.
const chart = "tempo: 80\n| C | Am | F | G7 |"

// songPlayed is a song before somebody who plays it.
func songPlayed(t *testing.T) (*player.Player, *Song) {
	t.Helper()
	p := player.New(t, "build", "ukulele", 1)
	work, err := p.NewSong(chart)
	if err != nil {
		t.Fatal(err)
	}
	s := &Song{work: work}
	p.At, p.Said = s, nil
	return p, s
}

// A song that waits goes on with each chord that is heard, and not with another.
func TestASongWaitsForItsChords(t *testing.T) {
	p, s := songPlayed(t)
	p.Does(t, "along")
	places := s.places()
	for n, place := range places {
		if s.mark != place {
			t.Fatalf("at chord %d it waits for place %d, want %d: %q", n, s.mark, place, p.Said)
		}
		if n == 1 {
			p.Hears(p.Student.Strum(s.work.Heard(places[3]).Shape))
			if s.mark != place || s.through.Lit(place) {
				t.Errorf("another chord is taken for it: %q", p.Said)
			}
			if order := s.attempt.Listens().Task.Order; order != nil { // it is not sure: the strings are plucked in turn
				p.Hears(p.Student.Turn(s.work.Heard(place).Shape, order))
				continue
			}
		}
		p.Hears(p.Student.Strum(s.work.Heard(place).Shape))
		if order := s.attempt.Listens().Task.Order; s.through != nil && s.mark == place && order != nil {
			p.Hears(p.Student.Turn(s.work.Heard(place).Shape, order))
		}
	}
	if s.through != nil || p.Said[len(p.Said)-1] != "Played through: all 4 chords were heard." {
		t.Errorf("it ends with %q", p.Said)
	}
}

// In time it goes on by itself, and lights the chords that were struck in theirs.
func TestASongIsPlayedInTime(t *testing.T) {
	for _, faulty := range []bool{false, true} {
		p, s := songPlayed(t)
		p.Does(t, "in time")
		const bar = 3.0 // seconds: four beats at 80
		sound := p.Student.Silence(20)
		for n, place := range s.places() {
			shape := s.work.Heard(place).Shape
			if faulty && n == 2 {
				continue // nothing is played there
			}
			stroke := p.Student.Strum(shape)
			for i, x := range stroke[:int(min(float64(len(stroke)), (bar-student.Before)*student.Rate))] {
				sound[int((0.5+bar*float64(n))*student.Rate)+i] += x
			}
		}
		p.Hears(sound)
		want := "Played through in time: all 4 chords were heard."
		if faulty {
			want = "Played through: of 4 chords, 3 were heard in time."
		}
		if s.through != nil || p.Said[len(p.Said)-1] != want {
			t.Errorf("it ends with %q, want %q", p.Said, want)
		}
	}
}
