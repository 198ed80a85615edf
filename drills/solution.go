package drills

import (
	"slices"

	"sparetone/drills/chord"
	"sparetone/progress"
	"sparetone/theory/say"
)

// Solution returns what is said to the right answer: a verdict with the explanation.
func (q *Question) Solution() Verdict {
	g, err := q.understand(q.expected.Typed)
	if err != nil { // the study meets no question that does not understand its own answer
		return Verdict{Result: progress.Right, Given: q.expected.Said, Expected: q.expected.Said, Asked: q.Sounds}
	}
	g.Said, g.Note = q.expected.Said, say.Text{}
	return q.verdict(g)
}

// AlsoRight lists what else is right, as it is shown: once each, however many ways there are to type it. Notes are
// right in any order, which goes without saying.
func (q *Question) AlsoRight() []say.Text {
	if q.Form == Notes {
		return nil
	}
	ids := []string{q.expected.ID}
	var out []say.Text
	for _, a := range q.Accepts {
		g, err := q.understand(a)
		if err == nil && g.Right() && !slices.Contains(ids, g.ID) {
			ids, out = append(ids, g.ID), append(out, g.Said)
		}
	}
	return out
}

// MoreRight says what is right beside what is listed; zero if all that is right is: a chord has more shapes than are.
func (q *Question) MoreRight() say.Text {
	if q.Form != Frets {
		return say.Text{}
	}
	if q.Shown != nil {
		return sayMoreSwaps(q.Answer)
	}
	if chord.IsTurned(q.Answer) {
		return sayMoreOver(q.Answer)
	}
	return sayMoreShapes
}
