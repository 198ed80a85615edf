package shapes

import (
	"math/rand/v2"
	"slices"
	"testing"

	"sparetone/drills"
	"sparetone/drills/trial"
)

// Nobody is asked about a kind of chord that the course has not come to: plain ones first, then sevenths too, and
// all once the whole neck is known.
func TestDoubledAsksAboutChordsThatAreKnown(t *testing.T) {
	first := []string{"root", "third", "fifth", whereDoubled, canBeSpared}
	for _, name := range []string{"ukulele", "guitar"} {
		on := trial.Instrument(t, name)
		for _, c := range []struct {
			inPlay []string
			reach  float64
			kinds  []string // nil is more than those named above
		}{
			{first, 0, plainKinds},
			{first, 1, plainKinds},
			{append(slices.Clone(first), "none"), 0, slices.Concat(plainKinds, seventhKinds)},
			{append(slices.Clone(first), "none"), 1, nil},
		} {
			rng := rand.New(rand.NewPCG(5, 55))
			met := map[string]bool{}
			for n := range 300 {
				q, err := Doubled{}.Ask(drills.Request{Target: c.inPlay[n%len(c.inPlay)], On: on, InPlay: c.inPlay, Reach: c.reach, Rand: rng})
				if err != nil {
					t.Fatalf("%s: %v", name, err)
				}
				met[q.Shown.Chord.Kind.ID] = true
				if c.kinds != nil && !slices.Contains(c.kinds, q.Shown.Chord.Kind.ID) {
					t.Fatalf("%s with %v in play asks about %s", name, c.inPlay, q.Shown.Chord)
				}
			}
			if len(met) < len(c.kinds) || c.kinds == nil && len(met) <= len(plainKinds)+len(seventhKinds) {
				t.Errorf("%s with %v in play, reach %.0f, asks about %d kinds only", name, c.inPlay, c.reach, len(met))
			}
		}
	}
}
