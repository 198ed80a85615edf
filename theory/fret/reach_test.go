package fret_test

import (
	"slices"
	"testing"

	"sparetone/theory/fret"
)

// A hand reaches as far on every neck, so over more frets where they are narrower: up the neck and on short strings.
func TestReach(t *testing.T) {
	for _, row := range []struct {
		tuning     string
		fret, high int
	}{
		{"guitar", 1, 4}, {"guitar", 4, 7}, {"guitar", 5, 9}, {"guitar", 12, 16},
		{"banjo", 1, 4}, {"banjo", 5, 8}, {"banjo", 6, 10}, {"bass", 1, 4}, {"bass", 9, 12}, {"bass", 10, 14},
		{"baritone", 1, 5}, {"ukulele", 1, 5}, {"ukulele", 10, 14}, {"mandolin", 1, 6}, {"mandolin", 2, 7}, {"mandola", 1, 6}, {"octave-mandolin", 1, 4}, {"octave-mandolin", 2, 6},
		{"A4 D4 F4 A4", 4, 7}, {"A4 D4 F4 A4", 5, 9},
	} {
		if got := tuning(t, row.tuning).Reach(row.fret); got != row.high {
			t.Errorf("%s: from fret %d to %d, want %d", row.tuning, row.fret, got, row.high)
		}
	}
	capo, err := tuning(t, "guitar").Capo(4)
	if err != nil {
		t.Fatal(err)
	}
	if got := capo.Reach(1); got != 5 {
		t.Errorf("a guitar with a capo at fret 4: from fret 1 to %d, want 5: there the fifth fret lies", got)
	}
}

// Shapes that players use are found, however far they reach and though a fifth is left out: common practice, no source.
func TestWideAndBareShapesAreFound(t *testing.T) {
	for _, row := range []struct {
		tuning, chord, shape string
		found                bool
	}{
		{"mandolin", "F", "5301", true}, {"mandolin", "G", "7523", true}, {"mandolin", "C7", "3230", true}, {"mandolin", "A", "9745", true},
		{"octave-mandolin", "F", "5301", false}, {"guitar", "C7", "x32310", true}, {"baritone", "Gmaj7", "0402", false},
		{"ukulele", "C", "5437", true},
		{"mandolin", "F", "2301", false},   // a triad has all its tones
		{"mandolin", "C6", "5235", false},  // a sixth chord without its fifth is another triad
		{"mandolin", "C7", "x230", false},  // on four strings all sound
		{"mandolin", "Bb7", "1536", false}, // the fifth may be left out, the third not
	} {
		found := fret.Search(tuning(t, row.tuning), chord(t, row.chord), fret.DefaultHand)
		got := slices.ContainsFunc(found, func(f fret.Found) bool { return f.Shape.String() == row.shape })
		if got != row.found {
			t.Errorf("%s as %s on %s: found %v", row.chord, row.shape, row.tuning, got)
		}
	}
}
