package session

import (
	"slices"
	"testing"

	"sparetone/drills/neck"
	"sparetone/drills/trial"
	"sparetone/theory/fret"
)

// metFirst lists what players of an instrument meet before any other, as symbol and shape.
func metFirst(on *neck.Instrument) []string {
	var out []string
	for _, l := range fret.Lessons(on.Tuning) {
		if l.First {
			out = append(out, l.Chord.Symbol()+" "+l.Shapes[0].String())
		}
	}
	return out
}

// Whoever begins is shown the shapes that players meet first and no other, and in time every one of them: on the guitar mostly
// C, Am, G and Em, since nothing of the other kind looks like the rest.
func TestFreshStartsOpenWithTheFirstShapes(t *testing.T) {
	for name, least := range map[string]int{"ukulele": 6, "guitar": 4} {
		on := trial.Played(t, name)
		first, shown := metFirst(on), map[string]bool{}
		for seed := range uint64(24) {
			s, _ := sittingOn(t, name, Setup{Drills: []string{"shape-name"}, Seed: seed})
			q, err := s.Next()
			if err != nil {
				t.Fatal(err)
			}
			is := q.Shown.Chord.Symbol() + " " + q.Shown.Shape.String()
			if !slices.Contains(first, is) {
				t.Errorf("%s, seed %d opens with %s", name, seed, is)
			}
			shown[is] = true
		}
		if len(shown) < least {
			t.Errorf("%s opens with %v only", name, shown)
		}
	}
}
