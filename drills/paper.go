package drills

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"sparetone/progress"
)

// paperReach is how much of the neck a paper asks for, 0 to 1.
const paperReach = 0.5

// asking is one thing that a paper asks for.
type asking struct {
	drill  Drill
	target string
	inPlay []string // what may stand among the choices; empty means all
}

// Paper makes a set of questions of one drill. What the drill asks for comes in turn, in an order drawn anew each
// time round, so that nothing comes twice before all has come once. The same seed makes the same paper. The error
// says why there is none: the drill has no question for the instrument.
func Paper(d Drill, on *Instrument, count int, seed uint64) ([]*Question, error) {
	var asks []asking
	for _, t := range d.Targets(on) {
		asks = append(asks, asking{drill: d, target: t.ID})
	}
	if len(asks) == 0 {
		return nil, fmt.Errorf("%s has nothing to ask on %s", d.About().ID, on.Tuning.Name)
	}
	return paper(asks, on, count, seed, func(rng *rand.Rand) []int { return rng.Perm(len(asks)) })
}

// LessonPaper makes a set of questions of a lesson: its steps come in their order, and from the first again until there
// are enough. What a step asks for comes in an order drawn anew each time, which else would tell the answers. Choices
// are among what the lesson asks of the same drill.
func LessonPaper(c Course, on *Instrument, count int, seed uint64) ([]*Question, error) {
	asks, steps := c.askings(on)
	if len(asks) == 0 {
		return nil, fmt.Errorf("the lesson has nothing to ask on %s", on.Tuning.Name)
	}
	return paper(asks, on, count, seed, func(rng *rand.Rand) []int {
		var order []int
		for _, n := range steps {
			first := len(order)
			for _, i := range rng.Perm(n) {
				order = append(order, first+i)
			}
		}
		return order
	})
}

// askings lists what the steps of a course ask for on an instrument, once each, and how much that is of each step.
func (c Course) askings(on *Instrument) (asks []asking, steps []int) {
	inPlay := map[string][]string{}
	for _, s := range c {
		d, ok := ByID(s.Drill)
		if !ok {
			continue
		}
		before, targets := len(asks), d.Targets(on)
		for _, a := range s.Asks {
			there := slices.ContainsFunc(targets, func(t Target) bool { return t.ID == a })
			if there && !slices.Contains(inPlay[s.Drill], a) {
				inPlay[s.Drill] = append(inPlay[s.Drill], a)
				asks = append(asks, asking{drill: d, target: a})
			}
		}
		steps = append(steps, len(asks)-before)
	}
	for n := range asks {
		asks[n].inPlay = inPlay[asks[n].drill.About().ID]
	}
	return asks, steps
}

// paper asks for one thing after the other, round after round; next is the order of a round.
func paper(asks []asking, on *Instrument, count int, seed uint64, next func(*rand.Rand) []int) ([]*Question, error) {
	var (
		out    []*Question
		rng    = rand.New(rand.NewPCG(seed, 0x7061706572))
		round  []int
		failed error
	)
	for empty := 0; len(out) < count && empty < len(asks); {
		if len(round) == 0 {
			round = next(rng)
		}
		a := asks[round[0]]
		round = round[1:]
		q, err := a.drill.Ask(Request{
			Target: a.target, On: on, InPlay: a.inPlay, Reach: paperReach, Rand: QuestionRand(a.drill.About().ID, a.target, rng.Uint64()),
		})
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
