package plan

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/memory"
)

// Every reason that is given for a question holds: sessions of weeks, of students of all sorts, each reason held against what the planner knew
// before it chose.
func TestReasonsHold(t *testing.T) {
	seen := map[Reason]int{}
	for student := range uint64(12) {
		rng := rand.New(rand.NewPCG(student, 16))
		var course []Candidate
		for i := range 4 + 3*int(student) {
			course = append(course, Candidate{Item: fmt.Sprint("d", i%3, "/", i), Drill: fmt.Sprint("d", i%3), Ear: i%3 == 1, ByName: student%4 == 3})
		}
		known := memory.NewDerived(memory.StartWeights)
		able := rng.Float64()
		for d := range 12 {
			day := today + progress.Day(2*d)
			p := planner(known, course...)
			at := noon(day)
			for {
				before := *p
				before.tries, before.missed, before.right = maps.Clone(p.tries), maps.Clone(p.missed), slices.Clone(p.right)
				chosen, ok := p.Next(at)
				if !ok {
					break
				}
				before.afterABadDay = p.afterABadDay
				seen[chosen.Why.Reason]++
				if why := before.wrong(chosen, day); why != "" {
					t.Fatalf("student %d, day %d, question %d: %s because %v, but %s", student, d, len(p.asked), chosen.Item, chosen.Why.Reason, why)
				}
				a := answered(chosen.Item, day, progress.Right)
				a.Drill, a.At, a.Choices = chosen.Drill, at, 4
				if chosen.Drill == "d1" {
					a.Voice = "nylon"
				}
				if rng.Float64() > able {
					a.Result = progress.Wrong
				}
				p.Answered(a)
				at = at.Add(time.Duration(6+rng.IntN(10)) * time.Second)
			}
		}
	}
	for _, why := range []Reason{Due, Weak, New, OnceMore, Ahead, Easier, Least, Turn, Closing} {
		if seen[why] == 0 {
			t.Errorf("nothing is asked because %v: %v", why, seen)
		}
	}
}

// wrong says what does not hold of a reason, by a planner as it was before it chose; "" if all of it holds.
func (p *Planner) wrong(chosen Chosen, day progress.Day) string {
	m, met := p.known.Memory[chosen.Item]
	why := chosen.Why
	yet := slices.Contains([]Reason{Ahead, Easier, Least, Turn}, why.Reason)
	least := p.tries[chosen.Item]
	for _, c := range p.course {
		if p.Met(c.Item) && c.Item != p.last().Item && !p.leftOut(c.Drill) {
			least = min(least, p.tries[c.Item])
		}
	}
	switch {
	case met == (why.Reason == New):
		return fmt.Sprintf("it was met: %v", met)
	case yet && m.IsDue(day):
		return "its day has come"
	case why.Reason == Due && !m.IsDue(day):
		return "its day has not come"
	case met && why.Days != day.Since(m.Day):
		return fmt.Sprintf("it was asked %d days ago", day.Since(m.Day))
	case why.Reason == OnceMore && !p.missed[chosen.Item]:
		return "it was not missed in the session"
	case why.Reason == Weak && !p.known.IsWeak(chosen.Item, day):
		return "it is not weak"
	case why.Reason == Closing && (m.Run == 0 || m.Knows(&p.known.Weights, day) < 0.7):
		return "it is not known"
	case why.Reason == Easier && (!p.goesBadly() || p.known.Chance(m, day) < likelier):
		return "nothing was missed, or it is not likelier right"
	case why.Reason == Ahead && p.goesBadly():
		return "what does most is not what is asked"
	case why.Reason == Least && p.tries[chosen.Item] > least:
		return "others were asked less"
	}
	if why.Reason == Ahead {
		worth := func(c Candidate, m memory.Memory) float64 {
			return p.counts(p.index[c.Item]) * rested(m, day, p.hastens()) * m.Gain(&p.known.Weights, day, p.later()) / p.secondsFor(c.Drill, p.known.Chance(m, day))
		}
		own := worth(p.course[p.index[chosen.Item]], m)
		for _, c := range p.course {
			// What is of the last question's drill counts for less, so that practice changes.
			if m, met := p.known.Memory[c.Item]; met && c.Item != p.last().Item && c.Drill != p.last().Drill && p.tries[c.Item] < mostTries && !p.leftOut(c.Drill) && worth(c, m) > own+1e-12 {
				return "a minute on " + c.Item + " does more"
			}
		}
	}
	return ""
}
