package plan

import (
	"maps"
	"math"
	"slices"

	"sparetone/progress"
	"sparetone/progress/memory"
)

// worthiest picks what a minute is worth most.
func (p *Planner) worthiest(day progress.Day) (Pick, bool) {
	best, most := Pick{}, 0.0
	consider := func(c Candidate, worth float64, why Reason) {
		if c.Drill == p.last().Drill {
			worth *= sameDrill
		}
		if worth > most {
			best, most = Pick{Item: c.Item, Why: Why{Reason: why}}, worth
		}
	}
	goesBadly := p.wrong() > tooWrong || p.opensGently()
	for place, c := range p.course {
		m, met := p.known.Memory[c.Item]
		if !met || p.leftOut(c.Drill) || c.Item == p.last().Item || p.tries[c.Item] >= oftenToday {
			continue
		}
		g := p.gain(place, m, day)
		chance := p.known.SetRight(m, g.foreseen)
		if goesBadly && chance < likelier {
			continue
		}
		consider(c, g.by/p.takes(c.Drill, chance), p.again(c.Item, m, day))
	}
	if p.hasRoom() && !p.opensGently() {
		if pick, found := p.begin(); found {
			c := p.course[p.place[pick.Item]]
			consider(c, newCounts*memory.FirstGain(&p.known.Weights)/p.takes(c.Drill, memory.FirstChance), New)
		}
	}
	return best, best.Item != ""
}

// gain works out what a thing of the course gains. It is what takes longest of a question, and most of it stays as it was from one question
// to the next, so it is kept.
func (p *Planner) gain(place int, m memory.Memory, day progress.Day) gained {
	if p.gains == nil {
		p.gains = make([]gained, len(p.course))
	}
	g := &p.gains[place]
	if g.of != m || g.day != day {
		*g = gained{m, day, m.Gain(&p.known.Weights, day), p.known.Foreseen(m, day)}
	}
	return *g
}

// again says why something is asked that was met.
func (p *Planner) again(item string, m memory.Memory, day progress.Day) Reason {
	switch {
	case p.missed[item]:
		return OnceMore
	case m.IsDue(day):
		return Due
	}
	return Ahead
}

// takes returns how many seconds a question of a drill takes on the average that is right with a chance.
func (p *Planner) takes(drill string, chance float64) float64 {
	return p.cycle(drill).Seconds() * (chance + missTakes*(1-chance))
}

// wrong counts the latest few answers that were not right.
func (p *Planner) wrong() (n int) {
	for _, held := range p.held[max(0, len(p.held)-latestFew):] {
		if !held {
			n++
		}
	}
	return n
}

// hasRoom reports whether there is room for something new.
func (p *Planner) hasRoom() bool {
	return p.wrong() <= max(fewWrong, mostWrong*min(len(p.held), latestFew)/latestFew)
}

// next lists the next few new things of the course that are not likely known; where all are, the least likely one.
func (p *Planner) next() (next []Candidate) {
	known := p.alreadyKnown()
	least := Candidate{}
	for i, c := range p.course {
		switch {
		case len(next) == nextFew || p.leftOut(c.Drill) || c.Item == p.last().Item || p.Met(c.Item) || !p.ready(c):
		case known[i] < likelyKnown:
			next = append(next, c)
		case least.Item == "" || known[i] < known[p.place[least.Item]]:
			least = c
		}
	}
	if next == nil && least.Item != "" {
		return []Candidate{least}
	}
	return next
}

// begin picks what comes next in the course: of the next few, the first of another drill than the last question's.
func (p *Planner) begin() (Pick, bool) {
	next := p.next()
	if len(next) == 0 {
		return Pick{}, false
	}
	i := max(0, slices.IndexFunc(next, func(c Candidate) bool { return c.Drill != p.last().Drill }))
	return Pick{Item: next[i].Item, Why: Why{Reason: New}}, true
}

// ready reports whether all that an item rests on was met, or is likely known. It need not hold: whoever waits until the last answer to all of it was
// right waits longest where most is to be learnt.
func (p *Planner) ready(c Candidate) bool {
	return !slices.ContainsFunc(c.After, func(item string) bool { return p.inCourse(item) && !p.Met(item) && !p.likelyKnown(item) })
}

// anything picks something new though there is no room for it, or else what was asked least, or else the
// same item again, or else the first one, of the drill whose turn it is, though what it rests on was not met.
func (p *Planner) anything(day progress.Day) (Pick, bool) {
	if pick, found := p.begin(); found {
		return pick, true
	}
	if pick, _ := p.mostFaded(day); pick.Item != "" {
		return pick, true
	}
	if p.inCourse(p.last().Item) && p.turn == "" {
		return Pick{Item: p.last().Item, Why: Why{Reason: Ahead}}, true
	}
	first := slices.IndexFunc(p.course, func(c Candidate) bool { return p.turn == "" || c.Drill == p.turn })
	return Pick{Item: p.course[first].Item, Why: Why{Reason: New}}, true
}

// mostFaded picks what was asked least in this session and of that what has faded most. It returns the
// chance of it, and 1 more for each time it was asked.
func (p *Planner) mostFaded(day progress.Day) (Pick, float64) {
	best, least := Pick{Why: Why{Reason: Ahead}}, math.Inf(1)
	for _, c := range p.course {
		m, met := p.known.Memory[c.Item]
		if c.Item == p.last().Item || !met || p.leftOut(c.Drill) {
			continue
		}
		if chance := m.Knows(&p.known.Weights, day) + float64(p.tries[c.Item]); chance < least {
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
		if !met || m.Run == 0 || c.Item == p.last().Item || p.leftOut(c.Drill) {
			continue
		}
		off := math.Abs(m.Knows(&p.known.Weights, day)-wellKnown) + float64(p.tries[c.Item])/100
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
