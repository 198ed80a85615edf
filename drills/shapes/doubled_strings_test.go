package shapes

import (
	"slices"
	"testing"

	"sparetone/drills"
	"sparetone/drills/trial"
	"sparetone/theory/fret"
)

// Of two strings that could be the doubled ones both sound: a muted one would not be guessed.
func TestPairsOfferedSound(t *testing.T) {
	for _, name := range []string{"ukulele", "guitar", "banjo", "charango"} {
		on, muted := trial.Instrument(t, name), 0
		for seed := range uint64(60) {
			q := trial.Ask(t, Doubled{}, whereDoubled, on, seed)
			for _, s := range q.Shown.Strings {
				if s.Fret != fret.Muted {
					continue
				}
				muted++
				if slices.ContainsFunc(q.Choices, func(c drills.Choice) bool {
					numbers, _ := stringNumbers(on.Tuning, c.Typed)
					return slices.Contains(numbers, s.Number)
				}) {
					t.Errorf("%s, %s %s: string %d is muted, and offered among %v", name, q.Prompt, q.Shown.Shape, s.Number, q.Choices)
				}
			}
		}
		if name == "guitar" && muted == 0 {
			t.Error("no string of a guitar was muted")
		}
	}
}
