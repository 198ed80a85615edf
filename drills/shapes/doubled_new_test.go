package shapes

import (
	"testing"

	"sparetone/drills"
	"sparetone/drills/trial"
	"sparetone/theory/fret"
)

// On six strings few shapes double one note alone. To somebody new they are shown as far as a hand holds them easily: no stretch such as
// xx6447, and nothing such as 2443xx that nobody meets.
func TestWhatIsNewIsHeldEasily(t *testing.T) {
	for _, tuning := range []string{"guitar", "banjo", "charango", "mandolin"} {
		on, hardest := trial.Played(t, tuning), 0.0
		for seed := range uint64(240) {
			target := []string{"root", "third", "fifth"}[seed%3]
			r := drills.Request{On: on, Target: target, InPlay: []string{"root", "third", "fifth"}, First: seed%2 == 0, Clarity: drills.Clearest, Rand: drills.QuestionRand("doubled", target, seed)}
			q, err := Doubled{}.Ask(r)
			if err != nil {
				t.Fatal(err)
			}
			for _, one := range append(q.Instead, q) {
				_, _, effort, _ := fret.Finger(one.Shown.Shape)
				if hardest = max(hardest, effort); effort > newEffort {
					t.Errorf("%s: %s asks %.1f of the hand", tuning, one.Shown.Shape, effort)
				}
			}
		}
		t.Logf("%s: the hardest asks %.1f", tuning, hardest)
	}
}
