package plan

import (
	"testing"

	"sparetone/progress"

	"github.com/google/go-cmp/cmp"
)

// An answer that is taken back moves nothing: what was missed, how practice goes and how long things take are as before it.
func TestAnAnswerIsForgotten(t *testing.T) {
	for _, was := range []progress.Result{progress.Right, progress.Wrong} {
		known := func() *Planner {
			p := planner(history(answered("a", today-9, progress.Right), answered("b", today-9, progress.Right)), Candidate{Item: "a", Drill: "d"}, Candidate{Item: "b", Drill: "d"})
			p.Answered(answered("a", today, was))
			return p
		}
		want := known()
		takes := want.cycle("d")
		for _, r := range []progress.Result{progress.Right, progress.Wrong} {
			p := known()
			before := history(answered("a", today-9, progress.Right), answered("b", today-9, progress.Right), answered("a", today, was))
			p.Answered(answered("a", today, r))
			p.cycle("d")
			p.already = []float64{1}
			p.TakeBack(before)
			if diff := cmp.Diff([]any{want.right, want.missed["a"], want.known.Memory, takes}, []any{p.right, p.missed["a"], p.known.Memory, p.cycle("d")}); diff != "" {
				t.Errorf("%v, then %v taken back: %s", was, r, diff)
			}
			if p.already != nil || len(p.cycles) != 1 {
				t.Errorf("what was reckoned of it stays: %v, %v", p.already, p.cycles)
			}
		}
	}
}
