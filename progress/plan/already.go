package plan

import "sparetone/progress/memory"

// What a student knows already
//
// Whoever is right at things that were never taught knows them from elsewhere, and rather knows what stands near them too. So how likely
// something is known that was never asked is guessed from how many of all things were never missed, and of those of its drill that stand
// near it in the course. What is likely known waits until nothing else is new, and holds up nothing that rests on it: a strong student
// is past what is known within a session or two, and nobody else is asked anything otherwise. Right answers to what was shown before say
// nothing until it has come to closer forms, a miss says as much as ever.
//
// The form is a mean with a prior, as of a beta distribution; the numbers are from judgement, chosen on students for tuning.
const (
	usualLevel  = 0.2  // share of all that a student knows beforehand
	levelWeighs = 4    // things that this counts as, beside those that were asked
	levelOfNear = 1    // things that the level counts as, beside those near by
	nearBefore  = 8    // things of the drill before one in the course that tell of it
	placesBack  = 60   // places of the course in which they lie
	placesOn    = 30   // places after it from which things of the drill tell of it
	onceMissed  = 0.05 // chance that something was known that was ever missed: by a slip
	leastLuck   = 0.02 // chance to guess what is given freely
	likelyKnown = 0.5  // from which on something is not begun as long as there is other
	shownRung   = 3    // rung on which something that was shown before, and never missed, counts as known
	levelRounds = 4    // until the level agrees with what it makes of the answers
)

// alreadyKnown returns how likely each thing of the course was known before it was asked, by its place.
func (p *Planner) alreadyKnown() []float64 {
	if p.already != nil {
		return p.already
	}
	all := make([]memory.Memory, len(p.course)) // what tells something
	for i, c := range p.course {
		if m := p.known.Memory[c.Item]; !c.Shown || m.Right < m.Asked || m.Rung >= shownRung {
			all[i] = m
		}
	}
	level := usualLevel
	for range levelRounds {
		sum, n := levelWeighs*usualLevel, float64(levelWeighs)
		for _, m := range all {
			if m.Asked > 0 {
				sum, n = sum+wasKnown(m, level), n+1
			}
		}
		level = sum / n
	}
	p.level = level
	p.already = make([]float64, len(p.course))
	for i, m := range all {
		if m.Asked > 0 {
			p.already[i] = wasKnown(m, level)
		} else {
			p.already[i] = p.near(i, all, level)
		}
	}
	return p.already
}

// near guesses how likely a thing is known that was never asked.
func (p *Planner) near(i int, all []memory.Memory, level float64) float64 {
	sum, n := levelOfNear*level, float64(levelOfNear)
	tells := func(j int) bool { return p.course[j].Drill == p.course[i].Drill && all[j].Asked > 0 }
	before := 0
	for j := i - 1; j >= max(0, i-placesBack) && before < nearBefore; j-- {
		if tells(j) {
			sum, n, before = sum+wasKnown(all[j], level), n+1, before+1
		}
	}
	for j := i + 1; j <= min(len(all)-1, i+placesOn); j++ {
		if tells(j) {
			sum, n = sum+wasKnown(all[j], level), n+1
		}
	}
	return sum / n
}

// wasKnown is how likely something was known when it was first asked, by a student who knows such a share of all: Bayes's rule. What was
// taught since and was never missed counts as known; there is little of it.
func wasKnown(m memory.Memory, level float64) float64 {
	if m.Right < m.Asked {
		return onceMissed
	}
	return level / (level + (1-level)*max(m.Guess, leastLuck))
}

// likelyKnown reports whether something that was never asked is likely known.
func (p *Planner) likelyKnown(item string) bool {
	return p.alreadyKnown()[p.index[item]] >= likelyKnown
}
