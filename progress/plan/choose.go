package plan

import (
	"maps"
	"math"
	"slices"

	"sparetone/progress"
	"sparetone/progress/memory"
)

// worthiest chooses what a minute is worth most.
func (p *Planner) worthiest(day progress.Day) (Chosen, bool) {
	best, most := Chosen{}, 0.0
	consider := func(c Candidate, worth float64, why Reason) {
		if c.Drill == p.last().Drill {
			worth *= sameDrill
		}
		if worth > most {
			best, most = Chosen{Item: c.Item, Why: Why{Reason: why}}, worth
		}
	}
	goesBadly, later := p.goesBadly(), p.later()
	for place, c := range p.course {
		m, met := p.known.Memory[c.Item]
		if !met || p.leftOut(c.Drill) || c.Item == p.last().Item || p.tries[c.Item] >= mostTries {
			continue
		}
		g := p.gain(place, m, day, later)
		chance := p.known.SetRight(m, g.foreseen)
		if goesBadly && chance < likelier {
			continue
		}
		why := p.reasonFor(c.Item, m, day)
		if why == Ahead && goesBadly {
			why = Easier
		}
		consider(c, p.counts(place)*rested(m, day, p.hastens())*g.by/p.secondsFor(c.Drill, chance), why)
	}
	if p.hasRoom() && !p.opensGently() {
		if chosen, found := p.chooseNew(); found {
			c := p.course[p.index[chosen.Item]]
			consider(c, newCounts*memory.FirstGain(&p.known.Weights)/p.secondsFor(c.Drill, memory.FirstChance), New)
		}
	}
	return best, best.Item != ""
}

// goesBadly reports whether only what is likelier right than wrong is asked.
func (p *Planner) goesBadly() bool { return p.lateWrongs() > tooWrong || p.opensGently() }

// gain works out what a thing of the course gains. It is what takes longest of a question, and most of it stays as it was from one question
// to the next, so it is kept.
func (p *Planner) gain(index int, m memory.Memory, day progress.Day, later float64) gained {
	if p.gains == nil {
		p.gains = make([]gained, len(p.course))
	}
	g := &p.gains[index]
	if g.of != m || g.day != day || g.later != later {
		*g = gained{m, day, later, m.Gain(&p.known.Weights, day, later), p.known.Foreseen(m, day)}
	}
	return *g
}

// reasonFor says why something is asked that was met.
func (p *Planner) reasonFor(item string, m memory.Memory, day progress.Day) Reason {
	switch {
	case p.missed[item]:
		return OnceMore
	case m.IsDue(day):
		return Due
	}
	return Ahead
}

// secondsFor returns how many seconds a question of a drill takes on the average that is right with a chance.
func (p *Planner) secondsFor(drill string, chance float64) float64 {
	return p.cycle(drill).Seconds() * (chance + missTakes*(1-chance))
}

// lateWrongs counts the latest few answers that were not right.
func (p *Planner) lateWrongs() (n int) {
	for _, held := range p.right[max(0, len(p.right)-latestFew):] {
		if !held {
			n++
		}
	}
	return n
}

// hasRoom reports whether there is room for something new.
func (p *Planner) hasRoom() bool {
	return p.lateWrongs() <= max(fewWrong, mostWrong*min(len(p.right), latestFew)/latestFew)
}

// newOnes lists the next few new things of the course that are not likely known; where all are, the least likely one.
func (p *Planner) newOnes() (next []Candidate) {
	known := p.alreadyKnown()
	least := Candidate{}
	for i, c := range p.course {
		switch {
		case len(next) == nextFew || p.leftOut(c.Drill) || c.Item == p.last().Item || p.Met(c.Item) || !p.ready(c):
		case known[i] < likelyKnown:
			next = append(next, c)
		case least.Item == "" || known[i] < known[p.index[least.Item]]:
			least = c
		}
	}
	if next == nil && least.Item != "" {
		return []Candidate{least}
	}
	return next
}

// chooseNew chooses what comes next in the course: of the next few, the first of another drill than the last question's.
func (p *Planner) chooseNew() (Chosen, bool) {
	next := p.newOnes()
	if len(next) == 0 {
		return Chosen{}, false
	}
	i := max(0, slices.IndexFunc(next, func(c Candidate) bool { return c.Drill != p.last().Drill }))
	return Chosen{Item: next[i].Item, Why: Why{Reason: New}}, true
}

// ready reports whether all that an item rests on was met, or is likely known. The last answer to those
// need not have been right: whoever waits for that waits longest where most is to be learnt.
func (p *Planner) ready(c Candidate) bool {
	return !slices.ContainsFunc(c.After, func(item string) bool { return p.inCourse(item) && !p.Met(item) && !p.likelyKnown(item) })
}

// anything chooses something new though there is no room for it, or else what was asked least, or else the
// same item again, or else the first one, of the drill whose turn it is, though what it rests on was not met.
func (p *Planner) anything(day progress.Day) (Chosen, bool) {
	if chosen, found := p.chooseNew(); found {
		return chosen, true
	}
	if chosen, _ := p.mostFaded(day); chosen.Item != "" {
		return chosen, true
	}
	if last := p.last().Item; p.inCourse(last) && p.turn == "" {
		return Chosen{Item: last, Why: Why{Reason: leastOr(p.reasonFor(last, p.known.Memory[last], day))}}, true
	}
	first := slices.IndexFunc(p.course, func(c Candidate) bool { return p.turn == "" || c.Drill == p.turn })
	return Chosen{Item: p.course[first].Item, Why: Why{Reason: New}}, true
}

// mostFaded chooses what was asked least in this session and of that what has faded most. It returns the
// chance of it, and 1 more for each time it was asked.
func (p *Planner) mostFaded(day progress.Day) (Chosen, float64) {
	best, least := Chosen{}, math.Inf(1)
	for _, c := range p.course {
		m, met := p.known.Memory[c.Item]
		if c.Item == p.last().Item || !met || p.leftOut(c.Drill) {
			continue
		}
		if chance := m.Knows(&p.known.Weights, day) + float64(p.tries[c.Item]); chance < least {
			best, least = Chosen{Item: c.Item, Why: Why{Reason: leastOr(p.reasonFor(c.Item, m, day))}}, chance
		}
	}
	return best, least
}

// leastOr is the reason for what a minute is not worth most of: that it was asked least, unless there is another.
func leastOr(why Reason) Reason {
	if why == Ahead {
		return Least
	}
	return why
}

// closing chooses something well known to end with.
func (p *Planner) closing(day progress.Day) (Chosen, bool) {
	best, least := Chosen{Why: Why{Reason: Closing}}, math.Inf(1)
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
		likely = append(likely, slices.Repeat([]string{item}, min(taken[item], mostCopies))...)
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
