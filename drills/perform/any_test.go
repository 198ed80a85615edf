package perform

import (
	"math/rand/v2"
	"testing"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/song"
	"sparetone/theory/song/arrange"
	"sparetone/theory/song/musicxml"
)

// Whatever chords stand in a song, on whatever tuning, it is arranged and played or refused in a line.
func TestSongsOfAnyChords(t *testing.T) {
	rnd := rand.New(rand.NewPCG(4, 17))
	kinds, tunings := theory.Kinds(), fret.Tunings()
	refused, played, marked := 0, 0, 0
	for n := range 150 {
		var line song.Line
		line.Form = song.Bars
		for range 1 + rnd.IntN(4) {
			var bar song.Bar
			for range 1 + rnd.IntN(5) {
				root := theory.Note{Letter: theory.Letter(rnd.IntN(7)), Alter: int8(rnd.IntN(3) - 1)}
				most := len(kinds)
				if n%2 == 0 {
					most = 30 // the commoner ones
				}
				c := theory.NewChord(root, kinds[rnd.IntN(most)])
				if rnd.IntN(5) == 0 {
					c.Bass = theory.Note{Letter: theory.Letter(rnd.IntN(7))}
				}
				bar.Entries = append(bar.Entries, song.Entry{Chord: c})
			}
			line.Bars = append(line.Bars, bar)
		}
		s := song.Song{Sections: []song.Section{{Lines: []song.Line{line}}}}
		on := tunings[rnd.IntN(len(tunings))]
		again, err := song.Read(song.Write(s))
		if err != nil {
			t.Fatalf("%s: %v", song.Write(s), err)
		}
		a, err := arrange.Arrange(again, arrange.Wishes{Tuning: on, Rich: rnd.IntN(11)})
		if err != nil {
			if err.Error() == "" {
				t.Errorf("%s: an error that says nothing", song.Write(s))
			}
			refused++
			continue
		}
		played++
		if len(a.Unheld()) > 0 {
			marked++
		}
		p, err := Play(a, Wishes{Sounds: All()[rnd.IntN(4)], Click: true})
		if err != nil || len(p.Score.Plucks) == 0 {
			t.Errorf("%s: %v", song.Write(s), err)
		}
		if _, round, err := Loop(a, Wishes{Sounds: All()[rnd.IntN(4)]}); err != nil || len(round.Plucks) == 0 {
			t.Errorf("%s: %v", song.Write(s), err)
		}
		musicxml.Write(a, n%2 == 0)
	}
	t.Logf("%d played, %d of them with a chord that has no shape, %d refused", played, marked, refused)
	if played < 50 || marked == 0 {
		t.Error("too few of one sort")
	}
}
