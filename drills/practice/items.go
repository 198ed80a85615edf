package practice

import (
	"slices"
	"time"

	"sparetone/drills"
	"sparetone/drills/course"
	"sparetone/progress/plan"
	"sparetone/theory/say"
)

// item is what an item id means.
type item struct {
	drill  drills.Drill
	target drills.Target
	step   course.Step
}

// candidates turns the course into items for the planner.
func (s *Session) candidates() []plan.Candidate {
	var out []plan.Candidate
	of := map[string][]string{} // items of each step
	targetsOf := map[string][]drills.Target{}
	for _, step := range s.set.Course {
		d, ok := drills.ByID(step.Drill)
		if !ok || len(s.set.Drills) > 0 && !slices.Contains(s.set.Drills, step.Drill) || s.set.Silent && d.About().Ears {
			continue
		}
		var after []string
		for _, r := range step.RestsOn {
			after = append(after, of[r]...)
		}
		if targetsOf[step.Drill] == nil {
			targetsOf[step.Drill] = d.Targets(s.set.On)
		}
		targets := targetsOf[step.Drill]
		for _, id := range step.Asks {
			i := slices.IndexFunc(targets, func(t drills.Target) bool { return t.ID == id })
			if i < 0 || s.set.Silent && targets[i].Ears || s.never[s.itemID(d, id)] {
				continue
			}
			c := plan.Candidate{Item: s.itemID(d, id), Drill: step.Drill, After: after, Ear: d.About().Ears || targets[i].Ears}
			for _, n := range targets[i].Near {
				c.Near = append(c.Near, s.itemID(d, n))
			}
			if !slices.ContainsFunc(out, func(o plan.Candidate) bool { return o.Item == c.Item }) {
				out = append(out, c)
			}
			s.items[c.Item] = item{d, targets[i], step}
			of[step.ID] = append(of[step.ID], c.Item)
		}
	}
	return out
}

func (s *Session) itemID(d drills.Drill, target string) string {
	return drills.ItemID(d.About().ID, target, s.set.On.Name())
}

// inPlay lists the targets of an item's drill that stand in its step of the course, or in a step that
// the student has met; choices are picked from these.
func (s *Session) inPlay(asked item) []string {
	steps := map[string]bool{asked.step.ID: true}
	for id, it := range s.items {
		if it.drill == asked.drill && s.planner.Met(id) {
			steps[it.step.ID] = true
		}
	}
	var out []string
	for _, it := range s.items {
		if it.drill == asked.drill && steps[it.step.ID] {
			out = append(out, it.target.ID)
		}
	}
	slices.Sort(out)
	return out
}

// wanted lists the targets of a drill that are worth asking now.
func (s *Session) wanted(d drills.Drill, now time.Time) []string {
	out := []string{}
	for id, it := range s.items {
		if it.drill == d && s.planner.Wanted(id, now) {
			out = append(out, it.target.ID)
		}
	}
	slices.Sort(out)
	return out
}

// mayAsk reports whether a target of a drill is in the course and on the neck.
func (s *Session) mayAsk(d drills.Drill, target string) bool {
	id := s.itemID(d, target)
	return s.items[id].drill != nil && !s.never[id]
}

// targetOf returns the target of an item if it is one of the drill's, and "" otherwise.
func (s *Session) targetOf(id string, d drills.Drill) string {
	if it, ok := s.items[id]; ok && it.drill == d {
		return it.target.ID
	}
	return ""
}

// Name is what the student calls an item.
func (s *Session) Name(id string) say.Text {
	if it, ok := s.items[id]; ok {
		return it.target.Name
	}
	// It is not of this session, but may have been of another.
	drill, target, _ := drills.SplitItem(id)
	if d, ok := drills.ByID(drill); ok {
		for _, t := range d.Targets(s.set.On) {
			if t.ID == target {
				return t.Name
			}
		}
	}
	return say.Of("{}", say.Foreign(id))
}
