package plan

import (
	"math"
	"slices"
)

// Follow lays another course before a planner in the middle of a session, such as one without what needs
// ears where the sound has gone. What was asked and missed in the session is kept; what was missed and
// cannot be asked now waits until it can. The course must not be empty.
func (p *Planner) Follow(course []Candidate) {
	p.course = course
	p.place = make(map[string]int, len(course))
	for i, c := range course {
		p.place[c.Item] = i
	}
	p.contrast = slices.DeleteFunc(p.contrast, func(c Pick) bool { return !p.inCourse(c.Item) || !p.inCourse(c.Against) })
	const later = math.MaxInt
	for i, m := range p.missed {
		switch {
		case !p.inCourse(m.item):
			p.missed[i].from = later
		case m.from == later:
			p.missed[i].from = len(p.asked) + apart
		}
	}
}
