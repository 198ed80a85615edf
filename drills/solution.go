package drills

import (
	"fmt"
	"slices"

	"sparetone/progress"
)

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

// MoreRight says what is right beside what is listed, "" if all that is right is: a chord has more shapes than are.
func (q *Question) MoreRight() string {
	if q.Form != Frets {
		return ""
	}
	if shapes := q.Solution().Shapes; q.Shown != nil {
		return fmt.Sprintf("Any other way to make %s, with all its notes, by moving one string is right too.", shapes[len(shapes)-1].Voicing.Chord)
	}
	return "Any other shape of just these notes is right too."
}
