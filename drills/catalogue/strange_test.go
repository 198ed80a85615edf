package catalogue

import (
	"math/rand/v2"
	"testing"

	"sparetone/drills"
	"sparetone/drills/trial"
	"sparetone/progress"
)

// Any strings can be tuned to, also such as hold few chords. Whatever is asked there takes every answer: its own,
// those beside it, and those of its drill that it does not offer.
func TestStrangeTunings(t *testing.T) {
	for _, tuning := range []string{"D4 A3", "C3 C4 C5", "C4 C4 C4 C4", "C2 C#4 D5 D#5"} {
		on := trial.Instrument(t, tuning)
		asked := 0
		for _, d := range All() {
			targets := d.Targets(on)
			if len(targets) == 0 {
				continue
			}
			rng := rand.New(rand.NewPCG(7, 77))
			for range 100 {
				r := anyRequest(d, on, rng)
				q, err := d.Ask(r)
				if err != nil {
					continue
				}
				asked++
				for _, text := range append(q.Accepts, q.Expected().Typed) {
					if v, err := q.Mark(text); err != nil || v.Result != progress.Right {
						t.Errorf("%s, %s %q: %q is marked %v, %v", tuning, r.Target, q.Text(), text, v.Result, err)
					}
				}
				for _, c := range q.Choices {
					if _, err := q.Mark(c.Typed); err != nil {
						t.Errorf("%s, %s %q: %v", tuning, r.Target, q.Text(), err)
					}
				}
				for _, other := range targets {
					q.Mark(other.Name.Screen())
				}
			}
		}
		if asked < 200 {
			t.Errorf("%s: %d questions", tuning, asked)
		}
	}
}

// What a drill lists on few strings it can ask there.
func TestFewStrings(t *testing.T) {
	for _, tuning := range []string{"A4", "D4 A4", "G3 D4 A4", "D4 F4 A4"} {
		on := trial.Instrument(t, tuning)
		for _, d := range All() {
			for _, target := range d.Targets(on) {
				if _, err := d.Ask(drills.Request{Target: target.ID, On: on, Rand: drills.QuestionRand(d.About().ID, target.ID, 1)}); err != nil {
					t.Errorf("%s, %s/%s: %v", tuning, d.About().ID, target.ID, err)
				}
			}
		}
	}
}
