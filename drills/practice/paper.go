package practice

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/neck"
)

// paperReach is how much of the neck a paper asks for, 0 to 1.
const paperReach = 0.5

// asking is one thing that a paper asks for.
type asking struct {
	drill  drills.Drill
	target string
	inPlay []string // what may stand among the choices; empty means all
}

// Paper makes a set of questions of one drill. What the drill asks for comes in turn, in an order picked anew each
// time round, so that nothing comes twice before all has come once. The same seed makes the same paper. The error
// says why there is none: the drill has no question for the instrument.
func Paper(d drills.Drill, on *neck.Instrument, count int, seed uint64) ([]*drills.Question, error) {
	return one(Papers(d, on, count, seed, 1))
}

// Papers makes so many papers of one drill that are as hard as each other. The first is that of Paper.
func Papers(d drills.Drill, on *neck.Instrument, count int, seed uint64, versions int) ([][]*drills.Question, error) {
	var asks []asking
	for _, t := range d.Targets(on) {
		asks = append(asks, asking{drill: d, target: t.ID})
	}
	if len(asks) == 0 {
		return nil, fmt.Errorf("%s has nothing to ask on %s", d.About().ID, on.Tuning.Name)
	}
	return papers(asks, on, count, seed, versions, func(rng *rand.Rand) []int { return rng.Perm(len(asks)) })
}

// LessonPaper makes a set of questions of a lesson: its steps come in their order, and from the first again until there
// are enough. Where there are fewer questions than the lesson has things to ask, each step has its share of them. What a step
// asks for comes in an order picked anew each time, which else would tell the answers. Choices are among what the lesson asks of
// the same drill.
func LessonPaper(c course.Course, on *neck.Instrument, count int, seed uint64) ([]*drills.Question, error) {
	return one(LessonPapers(c, on, count, seed, 1))
}

// LessonPapers makes so many papers of a lesson that are as hard as each other. The first is that of LessonPaper.
func LessonPapers(c course.Course, on *neck.Instrument, count int, seed uint64, versions int) ([][]*drills.Question, error) {
	asks, steps := askings(c, on)
	if len(asks) == 0 {
		return nil, fmt.Errorf("the lesson has nothing to ask on %s", on.Tuning.Name)
	}
	share := shares(steps, count)
	return papers(asks, on, count, seed, versions, func(rng *rand.Rand) []int {
		var order []int
		first := 0
		for step, n := range steps {
			for _, i := range rng.Perm(n)[:share[step]] {
				order = append(order, first+i)
			}
			first += n
		}
		return order
	})
}

// one is the only paper of some.
func one(all [][]*drills.Question, err error) ([]*drills.Question, error) {
	if err != nil {
		return nil, err
	}
	return all[0], nil
}

// shares divides the questions of a paper among steps, by how many things each asks: all of them where there are questions enough. Else
// each step has one, from the first on, and what is left goes where a step has the most things for each question (D'Hondt's method).
func shares(things []int, count int) []int {
	share := make([]int, len(things))
	for range count {
		most, best := 0.0, -1
		for step, n := range things {
			weight := float64(n) / float64(share[step]+1)
			if share[step] == 0 {
				weight = math.Inf(1)
			}
			if share[step] < n && weight > most {
				most, best = weight, step
			}
		}
		if best < 0 {
			break
		}
		share[best]++
	}
	return share
}

// askings lists what the steps of a course ask for on an instrument, once each, and how much that is of each step.
func askings(c course.Course, on *neck.Instrument) (asks []asking, steps []int) {
	inPlay := map[string][]string{}
	for _, s := range c {
		d, ok := catalogue.ByID(s.Drill)
		if !ok {
			continue
		}
		before, targets := len(asks), d.Targets(on)
		for _, a := range s.Asks {
			there := slices.ContainsFunc(targets, func(t drills.Target) bool { return t.ID == a })
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

// papers asks for one thing after the other, round after round; next is the order of a round.
func papers(asks []asking, on *neck.Instrument, count int, seed uint64, versions int, next func(*rand.Rand) []int) ([][]*drills.Question, error) {
	var (
		first  version
		rng    = rand.New(rand.NewPCG(seed, 0x7061706572))
		round  []int
		failed error
	)
	for empty := 0; len(first.questions) < count && empty < len(asks); {
		if len(round) == 0 {
			round = next(rng)
		}
		a := asks[round[0]]
		round = round[1:]
		q, err := a.ask(on, rng.Uint64())
		if err != nil {
			empty, failed = empty+1, err
			continue
		}
		empty = 0
		first.questions, first.asked = append(first.questions, q), append(first.asked, a)
	}
	if len(first.questions) < count {
		return nil, failed
	}
	return first.alike(on, seed, versions), nil
}

// ask makes a question for a thing from a seed.
func (a asking) ask(on *neck.Instrument, seed uint64) (*drills.Question, error) {
	return a.drill.Ask(drills.Request{
		Target: a.target, On: on, InPlay: a.inPlay, Reach: paperReach, Rand: drills.QuestionRand(a.drill.About().ID, a.target, seed),
	})
}
