package catalogue

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"sparetone/drills"
	"sparetone/drills/ear"
	"sparetone/drills/guesser"
	"sparetone/drills/trial"
)

// On each rung alone nothing that is noticed of a chord's sound tells its kind: the fewer shapes there are, as with the root lowest, the
// more the loudest moment could.
func TestEachRungIsFair(t *testing.T) {
	on := trial.Ukulele(t)
	d := ear.Chord{}
	targets := d.Targets(on)
	rungs := Rungs(on, "chord-ear", "major")
	for n, rung := range rungs {
		if !trial.Whole() && n+1 != 2 && n+1 != len(rungs) {
			continue
		}
		t.Run(fmt.Sprint("rung ", n+1), func(t *testing.T) {
			rng := rand.New(rand.NewPCG(5, uint64(55+n)))
			count := trial.StudyOf(100, 4000)
			var asked []met
			for len(asked) < count {
				r := drills.Request{On: on, Target: targets[rng.IntN(len(targets))].ID, Clarity: rung.Clarity, Reach: rung.Reach, Rand: rng}
				q, err := d.Ask(r)
				if err != nil {
					t.Fatal(err)
				}
				m := met{Question: q}
				m.loudness, m.loudest = levels(t, q)
				asked = append(asked, m)
			}
			chance, figures := fairChoices(t, asked)
			bound := max(mostAboveChance, 100*guesser.ByLuck(count, chance, len(figures)*len(rungs)))
			if trial.Whole() {
				bound = mostAboveChance
			}
			line := fmt.Sprintf("%d questions, chance %.1f %%:", count, 100*chance)
			for _, f := range figures {
				if !f.has {
					continue
				}
				line += fmt.Sprintf(" %s %+.1f", f.feature, f.above)
				if f.above > bound {
					t.Errorf("%s alone guesses %.1f points above chance, more than %.1f", f.feature, f.above, bound)
				}
			}
			t.Log(line)
		})
	}
}
