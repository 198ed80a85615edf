package plan

import "sparetone/progress/memory"

// When what a question gains is counted
//
// A week later, as a rule. Who knew much beforehand is taught more by counting it two days later, and so is who holds what is recalled many
// times as long as before. Both were found with simulated students; others it taught nothing or cost a little (STUDY.md). No source.
const (
	sooner    = 2   // days
	knowsMuch = 0.4 // share of all things known beforehand from which on that is much
)

// later returns how many days after a question its gain is counted.
func (p *Planner) later() float64 {
	p.alreadyKnown()
	if p.level >= knowsMuch {
		return sooner
	}
	return memory.AWeek + (sooner-memory.AWeek)*p.known.Weights.Growing()
}
