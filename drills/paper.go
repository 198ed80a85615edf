package drills

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"sparetone/progress"
)

// paperReach is how much of the neck a paper asks for, 0 to 1.
const paperReach = 0.5

// Paper makes a set of questions of one drill. What the drill asks for comes in turn, in an order drawn anew each
// time round, so that nothing comes twice before all has come once. The same seed makes the same paper. The error
// says why there is none: the drill has no question for the instrument.
func Paper(d Drill, on *Instrument, count int, seed uint64) ([]*Question, error) {
	var (
		out     []*Question
		id      = d.About().ID
		targets = d.Targets(on)
		rng     = rand.New(rand.NewPCG(seed, 0x7061706572))
		round   []int
		failed  = fmt.Errorf("%s has nothing to ask on %s", id, on.Tuning.Name)
	)
	for empty := 0; len(out) < count && empty < len(targets); {
		if len(round) == 0 {
			round = rng.Perm(len(targets))
		}
		target := targets[round[0]].ID
		round = round[1:]
		q, err := d.Ask(Request{Target: target, On: on, Reach: paperReach, Rand: QuestionRand(id, target, rng.Uint64())})
		if err != nil {
			empty, failed = empty+1, err
			continue
		}
		empty = 0
		out = append(out, q)
	}
	if len(out) < count {
		return nil, failed
	}
	return out, nil
}

// Solution returns what is said to the right answer: a verdict with the explanation.
func (q *Question) Solution() Verdict {
	v := Verdict{Result: progress.Right, Given: q.expected.Label, Expected: q.expected.Label, Asked: q.Sounds}
	if g, err := q.understand(q.expected.Typed); err == nil {
		q.explain(g, &v)
	}
	return v
}

// AlsoRight lists what else is right, as it is shown: once each, however many ways there are to type it. Notes are
// right in any order, which goes without saying.
func (q *Question) AlsoRight() []string {
	if q.Form == Notes {
		return nil
	}
	ids, labels := []string{q.expected.ID}, []string{q.expected.Label}
	for _, a := range q.Accepts {
		g, err := q.understand(a)
		if err == nil && g.right() && !slices.Contains(ids, g.id) && !slices.Contains(labels, g.label) {
			ids, labels = append(ids, g.id), append(labels, g.label)
		}
	}
	return labels[1:]
}
