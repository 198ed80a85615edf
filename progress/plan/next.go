package plan

import (
	"slices"
	"time"

	"sparetone/progress"
	"sparetone/progress/memory"
)

// Today says what a moment's day holds.
func (p *Planner) Today(now time.Time) Today {
	day := p.day(now)
	var t Today
	for _, c := range p.course {
		m, met := p.known.Memory[c.Item]
		switch {
		case met && m.IsDue(day):
			t.Due++
		case !met && p.ready(c):
			t.New++
		}
		if p.known.IsWeak(c.Item, day) {
			t.Weak++
		}
	}
	return t
}

// Next chooses what to ask now. The session's time runs from its first call. It returns false when
// another question would end nearer to the end of the time than no other, or the course is empty.
// No item comes twice running, unless nothing else may be asked.
func (p *Planner) Next(now time.Time) (Chosen, bool) {
	if p.began.IsZero() {
		p.began, p.afterABadDay = now, p.wentBadly()
	}
	if len(p.course) == 0 {
		return Chosen{}, false
	}
	chosen := p.choose(p.day(now), p.length-now.Sub(p.began))
	if p.length-now.Sub(p.began) < p.cycle(chosen.Drill)/2 {
		return Chosen{}, false
	}
	p.asked = append(p.asked, chosen)
	p.tries[chosen.Item]++
	return chosen, true
}

// Answered tells the planner of an answer, right after it was recorded.
func (p *Planner) Answered(a progress.Answer) {
	day := p.day(a.At)
	p.known.Add(a, day)
	p.already = nil
	delete(p.cycles, a.Drill)
	clear(p.passedOver)
	p.right = append(p.right, a.Result == progress.Right)
	p.before = missedBefore{a.Item, p.missed[a.Item]}
	p.missed[a.Item] = a.Result != progress.Right
}

// missedBefore is whether an item was missed the last time, before its last answer.
type missedBefore struct {
	item   string
	missed bool
}

// TakeBack forgets the answer that the planner was told last, which is not among what is known now. That it was asked stands.
func (p *Planner) TakeBack(known *memory.Derived) {
	p.known, p.already, p.gains = known, nil, nil
	clear(p.cycles)
	p.right = p.right[:max(0, len(p.right)-1)]
	p.missed[p.before.item] = p.before.missed
}

// Wanted reports whether an item is worth a question now: it has come back or faded, was not right the last time, or
// was never asked and may be begun.
func (p *Planner) Wanted(item string, now time.Time) bool {
	if !p.inCourse(item) {
		return false
	}
	day := p.day(now)
	m, met := p.known.Memory[item]
	if !met {
		return p.ready(p.course[p.index[item]])
	}
	return m.IsDue(day) || m.Run == 0 || m.Day != day && m.Knows(&p.known.Weights, day) < fadedABit
}

// AskedInstead tells the planner that another item of the course was asked in the place of what it chose last, and
// returns why it might have been. What was chosen still waits for its turn.
func (p *Planner) AskedInstead(item string, now time.Time) Why {
	picked := p.unask()
	p.tries[item]++
	day := p.day(now)
	m, met := p.known.Memory[item]
	why := Why{Reason: Beside}
	switch {
	case !met:
		why.Reason = New
	case m.IsDue(day):
		why.Reason = Due
	}
	if met {
		why.Days = day.Since(m.Day)
	}
	drill := picked.Drill
	if p.inCourse(item) { // a lesson may ask something of another drill
		drill = p.course[p.index[item]].Drill
	}
	p.asked = append(p.asked, Chosen{Item: item, Drill: drill, Why: why, Against: picked.Item})
	return why
}

// PassOver takes back what was chosen last and leaves its drill out until the next answer: there is no question of it
// now that nothing shown before gives away. It does nothing and reports false where no other drill has anything to ask, or this one
// has given way for long enough.
func (p *Planner) PassOver() bool {
	drill := p.last().Drill
	if p.hasGivenWay(drill) || !slices.ContainsFunc(p.course, func(c Candidate) bool {
		return c.Drill != drill && !p.passedOver[c.Drill] && (p.Met(c.Item) || p.ready(c))
	}) {
		return false
	}
	p.passedOver[p.unask().Drill] = true
	return true
}

// unask forgets what was chosen last.
func (p *Planner) unask() Chosen {
	picked := p.last()
	p.asked = p.asked[:len(p.asked)-1]
	p.tries[picked.Item]--
	return picked
}

// choose goes through what a question may be for, in order.
func (p *Planner) choose(day progress.Day, left time.Duration) Chosen {
	var chosen Chosen
	var found bool
	turn := p.inTurn()
	p.turn = ""
	if len(p.asked) > 0 && left < p.cycle(p.last().Drill)*3/2 {
		chosen, found = p.closing(day)
	}
	if !found {
		p.turn = turn
	}
	for _, from := range []func(progress.Day) (Chosen, bool){p.worthiest, p.anything} {
		if found {
			break
		}
		chosen, found = from(day)
	}
	c := p.course[p.index[chosen.Item]]
	chosen.Item, chosen.Drill = c.Item, c.Drill
	m, met := p.known.Memory[c.Item]
	if !met {
		return chosen
	}
	chosen.Why.Days = day.Since(m.Day)
	if p.turn != "" && slices.Contains([]Reason{Ahead, Easier, Least}, chosen.Why.Reason) {
		chosen.Why.Reason = Turn
	}
	if slices.Contains([]Reason{Due, Ahead, Easier, Least, Turn}, chosen.Why.Reason) && p.known.IsWeak(c.Item, day) {
		chosen.Why.Reason = Weak
		chosen.Why.TakenFor, chosen.Why.Times = p.known.MostTakenFor(c.Item, day)
		if p.canBeSetAgainst(chosen.Why.TakenFor, c.Item) {
			chosen.Against = chosen.Why.TakenFor
		}
	}
	if chosen.Against == "" {
		chosen.Against = p.company(c, day)
	}
	return chosen
}
