package ear

import (
	"strings"
	"testing"

	"sparetone/drills/trial"
)

// What a wrong answer would have been is the second chord, and is called so: nobody answered a chord.
func TestWhatTheAnswerWouldBeIsTheSecond(t *testing.T) {
	on := trial.Ukulele(t)
	for seed := range uint64(20) {
		q := trial.Ask(t, SameOrNot{}, "major-or-minor", on, seed)
		for _, c := range q.Choices {
			if c.ID == q.Expected().ID {
				continue
			}
			v, err := q.Mark(c.Typed)
			if err != nil {
				t.Fatal(err)
			}
			if last := v.Shapes[len(v.Shapes)-1].Caption.Screen(); len(v.Shapes) != 3 || !strings.HasPrefix(last, "the second, ") {
				t.Errorf("%d shapes, the last is called %q", len(v.Shapes), last)
			}
		}
	}
}
