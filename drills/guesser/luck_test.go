package guesser

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// Where nothing gives anything away, luck goes beyond the bound in one run of a hundred at the most, however the features fall; and not
// so seldom that the bound would be too wide.
func TestByLuck(t *testing.T) {
	const questions, runs = 120, 4000
	often := 0.0
	for _, c := range []struct{ choices, values int }{{2, 1}, {2, 6}, {4, 1}, {4, 6}, {4, 40}} {
		rng := rand.New(rand.NewPCG(5, 55))
		over := 0
		bound := ByLuck(questions, 1/float64(c.choices), 1)
		for range runs {
			all := make([]Guess, questions)
			for n := range all {
				feature := rng.IntN(c.values)
				all[n] = Guess{Right: rng.IntN(c.choices), Half: n % 2}
				for choice := range c.choices {
					all[n].Known = append(all[n].Known, fmt.Sprint(feature, choice))
				}
			}
			if Share(all)-1/float64(c.choices) > bound {
				over++
			}
		}
		rate := float64(over) / runs
		t.Logf("%d choices, %d values: %.4f of the runs", c.choices, c.values, rate)
		if rate > FalseAlarms+0.004 { // two and a half standard deviations of 4,000 runs
			t.Errorf("%d choices, %d values: luck goes beyond the bound in %.4f of the runs", c.choices, c.values, rate)
		}
		often = max(often, rate)
	}
	if often < FalseAlarms/3 {
		t.Errorf("luck goes beyond the bound in %.4f of the runs at the most: it is too wide", often)
	}
}

// Of more questions luck makes less, and of more figures one goes further.
func TestByLuckScales(t *testing.T) {
	one := ByLuck(1000, 0.5, 1)
	if got := ByLuck(4000, 0.5, 1); got < 0.49*one || got > 0.51*one {
		t.Errorf("of four times as many questions luck makes %.4f, of one %.4f", got, one)
	}
	if got := ByLuck(1000, 0.5, 800); got < 1.7*one || got > 1.9*one {
		t.Errorf("of 800 figures luck makes %.4f, of one %.4f", got, one)
	}
}
