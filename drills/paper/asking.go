package paper

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/neck"
)

// reach is how much of the neck a paper asks for, 0 to 1.
const reach = 0.5

// asking is one thing that a paper asks for.
type asking struct {
	drill  drills.Drill
	target string
	inPlay []string // what may stand among the choices; empty means all
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

// ask makes a question for a thing from a seed.
func (a asking) ask(on *neck.Instrument, seed uint64) (*drills.Question, error) {
	return a.drill.Ask(drills.Request{
		Target: a.target, On: on, InPlay: a.inPlay, Reach: reach, Rand: drills.QuestionRand(a.drill.About().ID, a.target, seed),
	})
}

// among asks for a thing with the choices that a question of it has, where these are things that the drill asks for.
func (a asking) among(q *drills.Question, on *neck.Instrument) asking {
	var ids []string
	targets := a.drill.Targets(on)
	for _, c := range q.Choices {
		if !slices.ContainsFunc(targets, func(t drills.Target) bool { return t.ID == c.ID }) {
			return a
		}
		ids = append(ids, c.ID)
	}
	if len(ids) > 0 {
		a.inPlay = ids
	}
	return a
}
