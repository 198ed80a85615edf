package catalogue

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"sparetone/drills"
	"sparetone/drills/ear"
	"sparetone/drills/guesser"
	"sparetone/drills/trial"
)

// An interval lies low on the neck at first, where beginners play, and further up with each rung.
func TestIntervalsLieLowAtFirst(t *testing.T) {
	for _, tuning := range []string{"ukulele", "guitar", "mandolin"} {
		on := trial.Instrument(t, tuning)
		for _, target := range []string{"P5", "M3"} {
			highest := map[int]int{}
			for rung := 1; rung <= 3; rung++ {
				at, _ := AtRung(on, "interval-ear", target, rung)
				for seed := range uint64(30) {
					q, err := ear.Interval{}.Ask(drills.Request{Target: target, InPlay: []string{"P5", "M3"}, On: on, Clarity: at.Clarity, Reach: at.Reach, Rand: drills.QuestionRand("low", target, seed)})
					if err != nil {
						t.Fatal(err)
					}
					highest[rung] = max(highest[rung], slices.Max(q.Solution().Shapes[0].Voicing.Shape))
				}
			}
			if highest[1] > 5 || highest[2] <= 5 || highest[2] > 8 || highest[3] <= 8 {
				t.Errorf("%s, %s: up to fret %v by rung", tuning, target, highest)
			}
		}
	}
}

// That there are fewer places low on the neck tells nothing of which interval it is, nor does how loud it is.
func TestLowIntervalsAreFair(t *testing.T) {
	on := trial.Ukulele(t)
	d := ear.Interval{}
	targets := d.Targets(on)
	rng := rand.New(rand.NewPCG(5, 5))
	count := trial.StudyOf(60, 4000)
	var asked []met
	for len(asked) < count {
		target := targets[rng.IntN(len(targets))].ID
		at, _ := AtRung(on, d.About().ID, target, 1)
		q, err := d.Ask(drills.Request{Target: target, On: on, Clarity: at.Clarity, Reach: at.Reach, Rand: rng})
		if err != nil {
			t.Fatal(err)
		}
		m := met{Question: q}
		m.loudness, m.loudest = levels(t, q)
		asked = append(asked, m)
	}
	chance, figures := fairChoices(t, asked)
	bound := mostAboveChance
	if !trial.Whole() {
		bound = max(bound, 100*guesser.ByLuck(count, chance, len(figures)))
	}
	line := fmt.Sprintf("%d questions, chance %.1f %%:", count, 100*chance)
	for _, f := range figures {
		if f.has {
			line += fmt.Sprintf(" %s %+.1f", f.feature, f.above)
		}
		if f.has && f.above > bound {
			t.Errorf("%s alone guesses %.1f points above chance, more than %.1f", f.feature, f.above, bound)
		}
	}
	t.Log(line)
}
