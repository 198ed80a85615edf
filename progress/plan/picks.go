package plan

import (
	"maps"
	"math"
	"slices"

	"sparetone/progress"
)

// What a question may be for; the order in which the planner goes through these is in planner.go.

// contrasted picks the other item of a pair that was just mistaken.
func (p *Planner) contrasted(day progress.Day) (Pick, bool) {
	for len(p.contrast) > 0 && p.contrast[0].Item != p.last().Item {
		pick := p.contrast[0]
		p.contrast = p.contrast[1:]
		if p.tries[pick.Item] == 0 {
			pick.Why = Why{Reason: Contrast, TakenFor: pick.Against}
			return pick, true
		}
	}
	return Pick{}, false
}

// due picks what has come back and is not lost.
func (p *Planner) due(day progress.Day) (Pick, bool) { return p.comeBack(day, false) }

// lost picks what has come back too late.
func (p *Planner) lost(day progress.Day) (Pick, bool) { return p.comeBack(day, true) }

// comeBack picks what has come back, lost or not, and gains most for the time it takes.
func (p *Planner) comeBack(day progress.Day, isLost bool) (Pick, bool) {
	best, most := Pick{}, 0.0
	for _, c := range p.course {
		m, met := p.known.Memory[c.Item]
		if !met || p.passedOver[c.Drill] || !m.IsDue(day) || c.Item == p.last().Item || m.Chance(&p.known.Weights, day) < lostBelow != isLost {
			continue
		}
		worth := m.Gain(&p.known.Weights, day) / p.cycle(c.Drill).Seconds()
		if c.Drill == p.last().Drill {
			worth *= sameDrill
		}
		if worth > most || best.Item == "" {
			best.Item, most = c.Item, worth
		}
	}
	if best.Item == "" {
		return best, false
	}
	best.Why.Reason = Due
	return best, true
}

// fresh picks what comes next in the course, if there is room for something new.
func (p *Planner) fresh(day progress.Day) (Pick, bool) {
	latest := p.held[max(0, len(p.held)-latestFew):]
	wrong := 0
	for _, held := range latest {
		if !held {
			wrong++
		}
	}
	if wrong > max(fewWrong, mostWrong*len(latest)/latestFew) {
		return Pick{}, false
	}
	return p.begin()
}

// begin picks what comes next in the course: of the next few, the first of another drill than the last question's.
func (p *Planner) begin() (Pick, bool) {
	var next []Candidate
	for _, c := range p.course {
		if len(next) < nextFew && !p.passedOver[c.Drill] && !p.Met(c.Item) && p.ready(c) {
			next = append(next, c)
		}
	}
	if len(next) == 0 {
		return Pick{}, false
	}
	i := max(0, slices.IndexFunc(next, func(c Candidate) bool { return c.Drill != p.last().Drill }))
	return Pick{Item: next[i].Item, Why: Why{Reason: New}}, true
}

// ready reports whether all that an item rests on holds: it was right the last time.
func (p *Planner) ready(c Candidate) bool {
	return !slices.ContainsFunc(c.After, func(item string) bool {
		return p.inCourse(item) && p.known.Memory[item].Run == 0
	})
}

// onceMore picks what was missed some questions ago.
func (p *Planner) onceMore(day progress.Day) (Pick, bool) {
	i := slices.IndexFunc(p.missed, func(m missedItem) bool { return m.from <= len(p.asked) && m.item != p.last().Item })
	if i < 0 {
		return Pick{}, false
	}
	m := p.missed[i]
	p.missed = slices.Delete(p.missed, i, i+1)
	pick := Pick{Item: m.item, Why: Why{Reason: OnceMore}}
	if p.canBeSetAgainst(m.takenFor, m.item) {
		pick.Against = m.takenFor
	}
	return pick, true
}

// faded picks what is not due but would be soonest, if it has faded enough to be worth a question.
func (p *Planner) faded(day progress.Day) (Pick, bool) {
	pick, chance := p.mostFaded(day)
	return pick, chance < fadedABit // so it was not asked in this session
}

// ahead picks what has faded most, however little, unless all was asked often enough in this session.
func (p *Planner) ahead(day progress.Day) (Pick, bool) {
	pick, _ := p.mostFaded(day)
	return pick, pick.Item != "" && p.tries[pick.Item] < oftenToday
}

// anything picks something new though there is no room for it, or else what was asked least, or else the
// same item again, or else the first one though what it rests on does not hold.
func (p *Planner) anything(day progress.Day) (Pick, bool) {
	if pick, found := p.begin(); found {
		return pick, true
	}
	if pick, _ := p.mostFaded(day); pick.Item != "" {
		return pick, true
	}
	if p.inCourse(p.last().Item) {
		return Pick{Item: p.last().Item, Why: Why{Reason: Ahead}}, true
	}
	return Pick{Item: p.course[0].Item, Why: Why{Reason: New}}, true
}

// mostFaded picks what was asked least in this session and of that what has faded most. It returns the
// chance of it, and 1 more for each time it was asked.
func (p *Planner) mostFaded(day progress.Day) (Pick, float64) {
	best, least := Pick{Why: Why{Reason: Ahead}}, math.Inf(1)
	for _, c := range p.course {
		m, met := p.known.Memory[c.Item]
		if c.Item == p.last().Item || !met || p.passedOver[c.Drill] {
			continue
		}
		if chance := m.Chance(&p.known.Weights, day) + float64(p.tries[c.Item]); chance < least {
			best.Item, least = c.Item, chance
		}
	}
	return best, least
}

// closing picks something well known to end with.
func (p *Planner) closing(day progress.Day) (Pick, bool) {
	best, least := Pick{Why: Why{Reason: Closing}}, math.Inf(1)
	for _, c := range p.course {
		m, met := p.known.Memory[c.Item]
		if !met || m.Run == 0 || c.Item == p.last().Item || p.passedOver[c.Drill] {
			continue
		}
		off := math.Abs(m.Chance(&p.known.Weights, day)-wellKnown) + float64(p.tries[c.Item])/100
		if off < least {
			best.Item, least = c.Item, off
		}
	}
	return best, least < 0.2
}

// company is something the student has met that an item may be mistaken for: each in its turn, more often
// what it was mistaken for of late.
func (p *Planner) company(c Candidate, day progress.Day) string {
	likely := slices.Clone(c.Near)
	taken := p.known.TakenFor(c.Item, day)
	for _, item := range slices.Sorted(maps.Keys(taken)) {
		likely = append(likely, slices.Repeat([]string{item}, min(taken[item], mostTurns))...)
	}
	likely = slices.DeleteFunc(likely, func(item string) bool { return !p.canBeSetAgainst(item, c.Item) })
	if len(likely) == 0 {
		return ""
	}
	return likely[p.known.Memory[c.Item].Asked%len(likely)]
}

// canBeSetAgainst reports whether another item is one the student has met and may be asked.
func (p *Planner) canBeSetAgainst(other, item string) bool {
	return other != item && p.inCourse(other) && p.Met(other)
}
