package fret_test

import (
	"slices"
	"testing"

	"sparetone/theory/fret"
)

// A bass that is none of the chord's tones sounds once, as the lowest note, beside all that the chord may not lose.
func TestShapesOverAForeignBass(t *testing.T) {
	for _, row := range []struct{ tuning, chord, shape string }{
		{"guitar", "D/C", "x30232"}, {"guitar", "C/D", "xx0010"}, {"guitar", "Am/F#", "2x2210"}, {"guitar", "F/G", "3x3211"}, {"ukulele", "C/D", "0203"},
	} {
		on, c := tuning(t, row.tuning), chord(t, row.chord)
		found := fret.Search(on, c, fret.DefaultHand)
		if !slices.ContainsFunc(found, func(f fret.Found) bool { return f.Shape.String() == row.shape }) {
			t.Errorf("%s on %s: no %s", row.chord, row.tuning, row.shape)
		}
		for _, f := range found {
			v, err := fret.Voice(on, f.Shape, c)
			if err != nil {
				t.Fatal(err)
			}
			basses, lowest := 0, 1000
			for _, p := range v.Pitches() {
				lowest = min(lowest, p.MIDI())
				if p.Same(c.Bass) {
					basses++
				}
			}
			if basses != 1 || (lowest-c.Bass.Class())%12 != 0 {
				t.Errorf("%s as %s on %s: the bass sounds %d times, and the lowest note is %d", row.chord, f.Shape, row.tuning, basses, lowest)
			}
		}
	}
}
