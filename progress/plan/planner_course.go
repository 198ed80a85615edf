package plan

// Follow lays another course before a planner in the middle of a session, such as one without what needs ears where the sound
// has gone. What was asked and missed in the session is kept. The course must not be empty.
func (p *Planner) Follow(course []Candidate) {
	p.course, p.already, p.gains = course, nil, nil
	p.index = make(map[string]int, len(course))
	for i, c := range course {
		p.index[c.Item] = i
	}
}
