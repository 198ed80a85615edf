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

// Next picks what to ask now. The session's time runs from its first call. It returns false when
// another question would end nearer to the end of the time than no other, or the course is empty.
// No item comes twice running, unless nothing else may be asked.
func (p *Planner) Next(now time.Time) (Pick, bool) {
	if p.began.IsZero() {
		p.began, p.afterABadDay = now, p.wentBadly()
	}
	if len(p.course) == 0 {
		return Pick{}, false
	}
	pick := p.choose(p.day(now), p.length-now.Sub(p.began))
	if p.length-now.Sub(p.began) < p.cycle(pick.Drill)/2 {
		return Pick{}, false
	}
	p.asked = append(p.asked, pick)
	p.tries[pick.Item]++
	return pick, true
}

// Answered tells the planner of an answer, right after it was recorded.
func (p *Planner) Answered(a progress.Answer) {
	day := p.day(a.At)
	p.known.Add(a, day)
	p.already = nil
	delete(p.cycles, a.Drill)
	clear(p.passedOver)
	p.held = append(p.held, a.Result == progress.Right)
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
	p.held = p.held[:max(0, len(p.held)-1)]
	p.missed[p.before.item] = p.before.missed
}

// Wanted reports whether an item is worth a question now: it has come back or faded, was not right the last time, or is
// next in the course.
func (p *Planner) Wanted(item string, now time.Time) bool {
	if !p.inCourse(item) {
		return false
	}
	day := p.day(now)
	m, met := p.known.Memory[item]
	if !met {
		return p.ready(p.course[p.place[item]])
	}
	return m.IsDue(day) || m.Run == 0 || m.Day != day && m.Knows(&p.known.Weights, day) < fadedABit
}

// AskedInstead tells the planner that another item of the course was asked in the place of what it picked last, and
// returns why it might have been. What was picked still waits for its turn.
func (p *Planner) AskedInstead(item string, now time.Time) Why {
	picked := p.takeBack()
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
		drill = p.course[p.place[item]].Drill
	}
	p.asked = append(p.asked, Pick{Item: item, Drill: drill, Why: why, Against: picked.Item})
	return why
}

// PassOver takes back what was picked last and leaves its drill out until the next answer: there is no question of it
// now that nothing shown before gives away. It does nothing and reports false where no other drill has anything to ask, or this one
// has given way for long enough.
func (p *Planner) PassOver() bool {
	drill := p.last().Drill
	if p.hasGivenWay(drill) || !slices.ContainsFunc(p.course, func(c Candidate) bool {
		return c.Drill != drill && !p.passedOver[c.Drill] && (p.Met(c.Item) || p.ready(c))
	}) {
		return false
	}
	p.passedOver[p.takeBack().Drill] = true
	return true
}

// takeBack forgets what was picked last.
func (p *Planner) takeBack() Pick {
	picked := p.last()
	p.asked = p.asked[:len(p.asked)-1]
	p.tries[picked.Item]--
	return picked
}

// choose goes through what a question may be for, in order.
func (p *Planner) choose(day progress.Day, left time.Duration) Pick {
	var pick Pick
	var found bool
	turn := p.inTurn()
	p.turn = ""
	if len(p.asked) > 0 && left < p.cycle(p.last().Drill)*3/2 {
		pick, found = p.closing(day)
	}
	if !found {
		p.turn = turn
	}
	for _, from := range []func(progress.Day) (Pick, bool){p.worthiest, p.anything} {
		if found {
			break
		}
		pick, found = from(day)
	}
	c := p.course[p.place[pick.Item]]
	pick.Item, pick.Drill = c.Item, c.Drill
	m, met := p.known.Memory[c.Item]
	if !met {
		return pick
	}
	pick.Why.Days = day.Since(m.Day)
	if p.turn != "" && pick.Why.Reason == Ahead {
		pick.Why.Reason = Turn
	}
	if slices.Contains([]Reason{Due, Ahead, Turn}, pick.Why.Reason) && p.known.IsWeak(c.Item, day) {
		pick.Why.Reason = Weak
		pick.Why.TakenFor, pick.Why.Times = p.known.MostTakenFor(c.Item, day)
		if p.canBeSetAgainst(pick.Why.TakenFor, c.Item) {
			pick.Against = pick.Why.TakenFor
		}
	}
	if pick.Against == "" {
		pick.Against = p.company(c, day)
	}
	return pick
}
