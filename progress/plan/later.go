package plan

import "sparetone/progress/memory"

// When what a question gains is counted
//
// A week later, as a rule. Who knew much beforehand is taught more by counting it some hours later, and so is who holds what is recalled many
// times as long as before: both gain most from what is known least, and need no rests for it (see rest.go). Who knew much gains more besides, where what was likely known beforehand
// counts for less: a right answer to it teaches little. All of it was found with simulated students; others it taught nothing or cost
// a little (STUDY.md). No source.
const (
	soon        = 0.25 // days
	knowsMuch   = 0.4  // share of all things known beforehand from which on that is much
	knownCounts = 0.5  // share of its gain that something surely known beforehand has
)

// knewMuch reports whether the student knew much beforehand.
func (p *Planner) knewMuch() bool {
	p.alreadyKnown()
	return p.level >= knowsMuch
}

// hastens returns how far, 0 to 1, what a question gains is counted soon and not a week later.
func (p *Planner) hastens() float64 {
	if p.knewMuch() {
		return 1
	}
	return p.known.Weights.Growing()
}

// later returns how many days after a question its gain is counted.
func (p *Planner) later() float64 { return memory.AWeek + (soon-memory.AWeek)*p.hastens() }

// counts returns what share of its gain a thing of the course has, for how likely it was known beforehand.
func (p *Planner) counts(index int) float64 {
	if !p.knewMuch() {
		return 1
	}
	return 1 - (1-knownCounts)*p.alreadyKnown()[index]
}
