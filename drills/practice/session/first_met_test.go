package session

import (
	"slices"
	"testing"

	"sparetone/drills/trial"
)

// Whoever begins is shown the shapes that players meet first and no other, and in time every one of them: on the guitar mostly
// C, Am, G and Em, since nothing of the other kind looks like the rest.
func TestFreshStartsOpenWithTheFirstShapes(t *testing.T) {
	for name, least := range map[string]int{"ukulele": 6, "guitar": 4} {
		on := trial.Played(t, name)
		first, shown := trial.MetFirst(on), map[string]bool{}
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
