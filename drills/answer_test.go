package drills

import (
	"strings"
	"testing"

	"sparetone/progress"
	"sparetone/theory/say"
)

// A drill that offers more choices than it has values for is told so by the first that is chosen.
func TestAChoiceWithoutAValue(t *testing.T) {
	q := &Question{Answers: Answers[int]{
		Offered: []int{7},
		Mark:    func(n int) Given { return Given{ID: "seven", Result: RightIf(n == 7)} },
	}}
	q.Offer("seven", Choice{ID: "seven", Said: say.Of("seven"), Typed: "seven"}, Choice{ID: "eight", Said: say.Of("eight"), Typed: "eight"})
	if result, err := q.Result("1"); result != progress.Right || err != nil {
		t.Error(result, err)
	}
	defer func() {
		if says, _ := recover().(string); !strings.Contains(says, "choice 2 of a question has no value, Offered has 1") {
			t.Errorf("it says %q", says)
		}
	}()
	_, _ = q.Result("eight")
}
