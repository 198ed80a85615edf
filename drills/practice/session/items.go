package session

import (
	"slices"
	"time"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/progress/plan"
	"sparetone/theory/say"
)

// candidates turns the course into items for the planner.
func (s *Session) candidates() []plan.Candidate {
	var out []plan.Candidate
	of := map[string][]string{} // items of each step
	targetsOf := map[string][]drills.Target{}
	var from []item // whose steps: of the lessons first, then of the course
	for _, r := range s.set.Lessons {
		for _, step := range r.Course {
			step.RestsOn = nil // what comes next is for the lesson to say
			from = append(from, item{step: step, lesson: r.Lesson.ID, held: r.On})
		}
	}
	for _, step := range s.set.Course {
		it := item{step: step}
		if s.set.Alone != nil {
			it.lesson, it.held = s.set.Alone.ID, s.set.Alone.On
		}
		from = append(from, it)
	}
	s.order = nil
	for _, it := range from {
		step := it.step
		d, ok := catalogue.ByID(step.Drill)
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
			c := plan.Candidate{Item: s.itemID(d, id), Drill: step.Drill, After: after, Ear: d.About().Ears || targets[i].Ears, Shown: !s.set.AtOnce,
				ByName: s.set.ByName || s.set.Alone != nil && len(after) == 0}
			for _, n := range targets[i].Near {
				c.Near = append(c.Near, s.itemID(d, n))
			}
			if there := slices.ContainsFunc(out, func(o plan.Candidate) bool { return o.Item == c.Item }); !there {
				out = append(out, c)
				s.order = append(s.order, c.Item)
			} else if s.items[c.Item].lesson != it.lesson {
				continue // what is of a lesson stays of it
			}
			it.drill, it.target = d, targets[i]
			s.items[c.Item] = it
			of[step.ID] = append(of[step.ID], c.Item)
		}
	}
	return out
}

func (s *Session) itemID(d drills.Drill, target string) string {
	return drills.ItemID(d.About().ID, target, s.set.On.Name())
}

// mostNewInPlay is how many things that were never asked or shown stand among the choices of a question at the most: each is shown before
// the question is put, and more than two in a row are hard to keep apart.
const mostNewInPlay = 2

// inPlay lists the targets of an item's drill that stand in its step of the course, or in a step that
// the student has met; choices are picked from these. Where what is new is shown first, two new things are among them at the most: the
// item itself if it is new, and those that come next in the course.
func (s *Session) inPlay(asked item) []string {
	steps := map[string]bool{asked.step.ID: true}
	for id, it := range s.items {
		if it.drill == asked.drill && it.lesson == asked.lesson && (s.planner.Met(id) || it.lesson != "" && s.set.Alone == nil) {
			steps[it.step.ID] = true
		}
	}
	var out []string
	for _, it := range s.items {
		if it.drill == asked.drill && it.lesson == asked.lesson && steps[it.step.ID] {
			out = append(out, it.target.ID)
		}
	}
	slices.Sort(out)
	if s.set.AtOnce {
		return out
	}
	isNew := func(target string) bool { return target != asked.target.ID && !s.IsMet(asked.drill, target) }
	next := s.inOrder(asked, isNew, out)
	room := mostNewInPlay
	if !s.IsMet(asked.drill, asked.target.ID) {
		room--
	}
	for _, later := range next[min(room, len(next)):] {
		out = slices.DeleteFunc(out, func(target string) bool { return target == later })
	}
	return out
}

// inOrder lists those of some targets of an item's drill that are wanted, in the order in which lessons and the course ask for them.
func (s *Session) inOrder(of item, wanted func(target string) bool, among []string) (out []string) {
	for _, c := range s.order {
		if it := s.items[c]; it.drill == of.drill && slices.Contains(among, it.target.ID) && wanted(it.target.ID) {
			out = append(out, it.target.ID)
		}
	}
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

// mayAsk reports whether a target may be asked in the place of another of its drill: it is in the course, of the same lesson, and on the
// neck.
func (s *Session) mayAsk(asked item, target string) bool {
	id := s.itemID(asked.drill, target)
	return s.items[id].drill != nil && s.items[id].lesson == asked.lesson && !s.never[id]
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
	if d, ok := catalogue.ByID(drill); ok {
		for _, t := range d.Targets(s.set.On) {
			if t.ID == target {
				return t.Name
			}
		}
	}
	return say.Of("{}", say.Foreign(id))
}

// HasMet reports whether an item was asked or shown, in this session or before it.
func (s *Session) HasMet(item string) bool { return s.planner.Met(item) }

// InARow returns how often in a row a target of a drill was answered right last.
func (s *Session) InARow(d drills.Drill, target string) int {
	return s.planner.Run(s.itemID(d, target))
}

// LessonOf returns the id of the lesson that an item is asked for, "" if it is for none.
func (s *Session) LessonOf(item string) string { return s.items[item].lesson }

// Lessons are those that are part of the session's practice.
func (s *Session) Lessons() []*Running { return s.set.Lessons }
