package practice

import (
	"sparetone/drills"
	"sparetone/drills/meet"
)

// Meet returns what is to be shown before the present question is put: of what the question asks and offers, the next thing that was
// never asked on this file nor shown in this session. It returns nil when nothing is left to show: the question is put then, and its
// clock starts.
func (s *Session) Meet() *meet.Meeting {
	for s.asked != nil && len(s.toMeet) > 0 {
		target := s.toMeet[0]
		s.toMeet = s.toMeet[1:]
		it := s.items[s.asked.Item]
		if s.isMet(it.drill, target) {
			continue
		}
		m, err := meet.New(it.drill, target, s.set.On)
		s.met[s.itemID(it.drill, target)] = true
		if err != nil { // no example on this neck: the question has to do
			continue
		}
		if m.Beside != nil {
			s.met[s.itemID(it.drill, m.Beside.Target)] = true
		}
		return &m
	}
	s.since = s.clock()
	return nil
}

// isMet reports whether a target was ever asked, or shown in this session.
func (s *Session) isMet(d drills.Drill, target string) bool {
	id := s.itemID(d, target)
	return s.met[id] || s.planner.Met(id)
}

// unmet lists the targets that a question asks for and offers and that were not met, what it asks for first.
func (s *Session) unmet(d drills.Drill, q *drills.Question) []string {
	var out []string
	add := func(target string) {
		if it, ok := s.items[s.itemID(d, target)]; ok && !s.isMet(d, it.target.ID) {
			out = append(out, target)
		}
	}
	add(q.Target)
	for _, c := range q.Choices {
		if v, err := q.Mark(c.Typed); err == nil && v.TakenFor != "" {
			add(v.TakenFor)
		}
	}
	return out
}

// MeetAgain shows what a question is about, which was met before. The error says why it cannot be shown on this neck.
func (s *Session) MeetAgain(q *Asked) (meet.Meeting, error) {
	return meet.New(s.items[q.Item].drill, q.Target, s.set.On)
}
