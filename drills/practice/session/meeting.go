package session

import (
	"cmp"
	"slices"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/meet"
	"sparetone/theory/say"
)

// Meet returns what is to be shown before the present question is put: of what the question asks and offers, the next thing that was
// never asked on this file and never shown; of what is seen, what was never asked, for it is asked of shapes that are shown just before;
// of what is known by heart alone, all that could be asked in its place, if any of it was never shown; and chords over another note, before
// the first is asked in its drill. It returns nil when nothing is left
// to show: the question is put then, and its clock starts. What it returns it returns again until Met is told of it.
func (s *Session) Meet() *meet.Meeting {
	for s.asked != nil && len(s.toMeet) > 0 {
		target := s.toMeet[0]
		it := s.items[s.asked.Item]
		if m, err := meet.Before(s.asked.Question, it.drill, target, s.on(it)); err == nil {
			m.Known = s.asked.Instead != nil && (s.planner.Met(s.itemID(it.drill, target)) || s.bothMet(it.drill, &m))
			if s.isLikeSaid(it.drill, target) {
				m.Like = say.Text{}
			}
			return &m
		} // no example on this neck: the question has to do
		s.toMeet = s.toMeet[1:]
	}
	s.since = s.clock()
	return nil
}

// Met keeps that something was shown, and what it was set against: neither is shown again by itself, even if its question is never
// answered. An error is of the file, which then holds on to it as it does to an answer.
func (s *Session) Met(m *meet.Meeting) error {
	s.isHere()
	shown := []string{m.Target}
	if m.Beside != nil && !m.Beside.Answer {
		shown = append(shown, m.Beside.Target)
	}
	var wrong error
	for _, one := range s.asked.Instead {
		wrong = cmp.Or(wrong, s.look(one))
	}
	if !m.Like.IsZero() {
		wrong = cmp.Or(wrong, s.set.File.SetSetting(MetKey(s.likeID(s.items[s.asked.Item].drill, m.Target)), "yes"))
	}
	s.toMeet = slices.DeleteFunc(s.toMeet, func(t string) bool { return slices.Contains(shown, t) })
	for _, target := range shown {
		id := drills.ItemID(m.Drill, target, s.set.On.Name())
		if s.met[id] {
			continue
		}
		s.met[id] = true
		wrong = cmp.Or(wrong, s.set.File.SetSetting(MetKey(id), "yes"))
	}
	return wrong
}

// MeetNone keeps that all that is left to be shown before the present question counts as shown.
func (s *Session) MeetNone() error {
	var wrong error
	for m := s.Meet(); m != nil; m = s.Meet() {
		wrong = cmp.Or(wrong, s.Met(m))
	}
	return wrong
}

// lookKey is by what it is known that a question was shown before it was asked, with its answer: one shape may have two names.
func lookKey(q *drills.Question) string { return q.Drill + " " + q.Text() + " " + q.Expected().ID }

// look keeps that a question was shown with its answer: in the file, where the answer is known by heart.
func (s *Session) look(q *drills.Question) error {
	key := lookKey(q)
	if s.looked[key] || !isByHeart(q.Drill) {
		s.looked[key] = true
		return nil
	}
	s.looked[key] = true
	return s.set.File.SetSetting(MetKey(s.shapeID(q)), "yes")
}

// isLooked reports whether a question was shown with its answer: in this session, or, where the answer is known by heart, ever.
func (s *Session) isLooked(q *drills.Question) bool {
	if s.looked[lookKey(q)] || !isByHeart(q.Drill) {
		return s.looked[lookKey(q)]
	}
	_, shown, err := s.set.File.Setting(MetKey(s.shapeID(q)))
	return shown && err == nil
}

// shapeID is what a shape and its name are kept by, which were shown.
func (s *Session) shapeID(q *drills.Question) string {
	var shown string
	if q.Shown != nil {
		shown = q.Shown.Shape.String()
	} else { // it is built
		shown = q.Answer.Symbol()
	}
	return drills.ItemID(q.Drill, shown+"="+q.Expected().Typed, s.set.On.Name())
}

// isByHeart reports whether the answers of a drill are known by heart.
func isByHeart(drill string) bool {
	d, ok := catalogue.ByID(drill)
	return ok && d.About().ByHeart
}

// bothMet reports whether a thing and what it is told from were asked or shown before.
func (s *Session) bothMet(d drills.Drill, m *meet.Meeting) bool {
	return s.IsMet(d, m.Target) && (m.Beside == nil || s.IsMet(d, m.Beside.Target))
}

// likeID is by what it is kept that somebody was told what a target is like: it is the same in every drill that asks about it.
func (s *Session) likeID(d drills.Drill, target string) string {
	topic := s.items[s.itemID(d, target)].target.Topic
	return drills.ItemID("like", topic.Of+"-"+topic.ID, s.set.On.Name())
}

// isLikeSaid reports whether it was said already what a target is like. Where the file does not say, it was not.
func (s *Session) isLikeSaid(d drills.Drill, target string) bool {
	_, said, err := s.set.File.Setting(MetKey(s.likeID(d, target)))
	return said && err == nil
}

// MetKey is the key of the setting that says that an item was shown.
func MetKey(item string) string { return "met/" + item }

// IsMet reports whether a target was ever asked or shown. Where the file does not say, it was not.
func (s *Session) IsMet(d drills.Drill, target string) bool {
	id := s.itemID(d, target)
	if s.met[id] || s.planner.Met(id) {
		return true
	}
	_, shown, err := s.set.File.Setting(MetKey(id))
	return shown && err == nil
}

// unmet lists the targets that a question asks for and offers and that are to be met before it, in the drill's order: which of them is
// asked for is not told.
func (s *Session) unmet(d drills.Drill, q *drills.Question) []string {
	var out []string
	isMet := func(target string) bool { return s.IsMet(d, target) }
	if q.Instead != nil {
		isMet = func(target string) bool { return s.planner.Met(s.itemID(d, target)) }
	}
	add := func(target string) {
		if it, ok := s.items[s.itemID(d, target)]; ok && !isMet(it.target.ID) && !slices.Contains(out, target) {
			out = append(out, target)
		}
	}
	add(q.Target)
	for _, c := range q.Choices {
		if v, err := q.Mark(c.Typed); err == nil && v.TakenFor != "" {
			add(v.TakenFor)
		}
	}
	if q.Instead != nil {
		isLooked := func(one *drills.Question) bool { return s.looked[lookKey(one)] }
		again := len(out) == 0 // things that were asked before, perhaps in shapes that were not
		if again {
			isLooked = s.isLooked
		}
		switch all := !slices.ContainsFunc(q.Instead, func(one *drills.Question) bool { return !isLooked(one) }); {
		case all:
			return nil
		case again:
			return []string{q.Instead[0].Target}
		}
	}
	targets := d.Targets(s.set.On)
	place := func(id string) int {
		return slices.IndexFunc(targets, func(t drills.Target) bool { return t.ID == id })
	}
	slices.SortFunc(out, func(a, b string) int { return cmp.Compare(place(a), place(b)) })
	return out
}

// MeetAgain shows what a question is about, which was met before: chords over another note, where it is asked on that rung. The error says
// why it cannot be shown on this neck.
func (s *Session) MeetAgain(q *Asked) (meet.Meeting, error) {
	it := s.items[q.Item]
	if form, _ := catalogue.AtRung(s.on(it), q.Drill, q.Target, q.Rung); form.Clarity.Turned {
		return meet.New(it.drill, meet.AnotherBass, s.on(it))
	}
	return meet.New(it.drill, q.Target, s.on(it))
}
