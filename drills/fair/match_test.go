package fair

import (
	"math/rand/v2"
	"slices"
	"testing"

	"sparetone/drills"
)

// Where nothing within the reach is alike it is looked for further along the neck, a quarter at a time, to its end.
func TestMatchLooksFurther(t *testing.T) {
	for _, c := range []struct {
		reach, alike float64
		want         []float64
	}{
		{0, 0, []float64{0}}, {0, 0.25, []float64{0, 0.25}}, {0.1, 0.5, []float64{0.1, 0.35, 0.6}}, {0.9, 1, []float64{0.9, 1}},
		{0, 2, []float64{0, 0.25, 0.5, 0.75, 1, 1}}, // nothing ever is: then one of the right choice's own, from all of the neck
	} {
		var looked []float64
		options := func(reach float64) [][]int {
			looked = append(looked, reach)
			if reach >= c.alike {
				return [][]int{{7}, {7, 8}}
			}
			return [][]int{{7}, {8}}
		}
		got, ok := Match(drills.Request{Reach: c.reach, Rand: rand.New(rand.NewPCG(1, 2))}, 0, options, func(n int) Feature { return Feature{n} })
		if !ok || got != 7 || !slices.Equal(looked, c.want) {
			t.Errorf("reach %.2f, alike from %.2f: %d, %v, looked at %v, not %v", c.reach, c.alike, got, ok, looked, c.want)
		}
	}
}

// What lies near a target and is none on these strings, as a chord of four notes on three of them, does not stand among the choices.
func TestOnlyTargetsAreChoices(t *testing.T) {
	all := []drills.Target{{ID: "major"}, {ID: "minor"}, {ID: "suspended-fourth", Near: []string{"seventh-suspended-fourth"}}}
	r := drills.Request{Target: "suspended-fourth", Against: "seventh-suspended-fourth", Rand: rand.New(rand.NewPCG(1, 2))}
	for _, r.InPlay = range [][]string{nil, {"suspended-fourth"}, {"suspended-fourth", "seventh-suspended-fourth"}} {
		got, err := Pick(all, r, func(a, b string) bool { return false })
		if err != nil || len(got) < 2 || !drills.IsTarget(got, "suspended-fourth") {
			t.Errorf("in play %q: %v, %v", r.InPlay, got, err)
		}
	}
}
