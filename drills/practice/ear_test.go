package practice

import (
	"slices"
	"testing"

	"sparetone/drills/played"
	"sparetone/drills/played/student"
	"sparetone/synth"
	"sparetone/synth/capture"
	"sparetone/synth/playback"
	"sparetone/theory/fret"
)

// sounding is a speaker that plays or does not.
type sounding struct {
	playback.Speaker
	plays bool
}

func (s *sounding) Playing() bool { return s.plays }

// What the program itself plays is not heard as an answer, nor what rings on for a moment after it; then it listens.
func TestOurOwnSoundIsNotHeard(t *testing.T) {
	tuning, err := fret.ParseTuning("ukulele")
	if err != nil {
		t.Fatal(err)
	}
	shape, _ := fret.ParseShape("0003")
	speaker := &sounding{Speaker: playback.None(0)}
	p := &App{Speaker: speaker}
	s := student.New(tuning, synth.Voices()[0], 1)
	v, err := fret.Voice(tuning, shape, fret.Lessons(tuning)[0].Chord)
	if err != nil {
		t.Fatal(err)
	}
	p.ListenFor(played.NewShapeAttempt(v, 0).Listens())
	hear := func(sound []float64) (heard []played.Heard) {
		for block := range slices.Chunk(sound, student.Rate/20) {
			heard = append(heard, p.Hear(capture.Sound{Samples: block, Rate: student.Rate, Run: 1})...)
			p.HearAll()
		}
		return heard
	}
	speaker.plays = true
	if heard := hear(s.Strum(shape)); len(heard) != 0 {
		t.Errorf("while it plays itself %d things are heard", len(heard))
	}
	speaker.plays = false
	rings := s.Strum(shape)[int((student.Before+0.2)*student.Rate):]
	if heard := hear(rings); len(heard) != 0 {
		t.Errorf("of what rings on %d things are heard", len(heard))
	}
	if heard := hear(s.Strum(shape)); len(heard) != 1 || heard[0].Reading == nil {
		t.Errorf("after it the stroke is heard as %+v", heard)
	}
	p.ListenFor(played.Listening{})
	if heard := hear(s.Strum(shape)); len(heard) != 0 {
		t.Errorf("where nothing is listened for %d things are heard", len(heard))
	}
}
