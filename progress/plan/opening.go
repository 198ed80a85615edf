package plan

import "sparetone/progress"

// A session after a bad one
//
// Whoever missed much of what was asked on the latest day of practice begins gently: as long as no more than the latest few questions were answered,
// only what is likelier right than wrong is asked, and nothing new comes, unless there is nothing else. Simulated students who may give
// up did so less, practised nearly half as much again, and knew a third more after a month (STUDY.md). A pause alone is no reason: in the
// first session after one no more was missed than else.

// missedMuch is the share of the things asked on the latest day above which much was missed: counted by what became of them at last.
const missedMuch = 0.4

// opensGently reports whether only what is likelier right than wrong is asked because of how the latest day of practice before went.
func (p *Planner) opensGently() bool { return p.afterABadDay && len(p.right) < latestFew }

// wentBadly reports whether much was missed on the latest day of practice.
func (p *Planner) wentBadly() bool {
	var latest progress.Day
	asked, missed := 0, 0
	for _, m := range p.known.Memory {
		if m.Day > latest {
			latest, asked, missed = m.Day, 0, 0
		}
		if m.Day == latest {
			asked++
			if m.Run == 0 {
				missed++
			}
		}
	}
	return float64(missed) > missedMuch*float64(asked)
}
