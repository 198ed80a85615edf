package plan

import (
	"sparetone/progress"
	"sparetone/progress/memory"
)

// How long a thing rests
//
// A question teaches more that lasts where the one before it lies some days back, right or not; on the same day it teaches next to nothing
// that does. So a thing rests: for a day after its first questions, then for a day more after each, for three days at the most, and for less where it
// was missed, since some forget that wholly. In that time
// it is worth less, in proportion, and is asked only where it gains much more than all else. Whose gains are counted soon needs no rests (later.go).
//
// Source of the spacing: N. J. Cepeda, H. Pashler, E. Vul, J. T. Wixted and D. Rohrer, "Distributed practice in verbal recall tasks",
// Psychological Bulletin 132 (2006); that an answer missed and then seen teaches too: N. Kornell, M. J. Hays and R. A. Bjork, "Unsuccessful
// retrieval attempts enhance subsequent learning", Journal of Experimental Psychology: Learning, Memory, and Cognition 35 (2009). Both from
// memory. The numbers were chosen on students for choosing; who gains by them after a month and more, and who forgets by half-lives and
// loses, stands in STUDY.md.
const (
	shortRests = 4    // questions after which a thing rests for a day only
	longRest   = 3    // days that it rests at the most
	missRests  = 0.35 // share of its rest that a thing has which was missed
	leastRest  = 0.1  // days that count as rested on the day itself
)

// rested is what share of its worth a thing has that has not rested for as long as it should, 0 to 1; hastens is how far gains are
// counted soon, 0 to 1.
func rested(m memory.Memory, day progress.Day, hastens float64) float64 {
	rest := min(longRest, 1+max(0, float64(m.Asked-shortRests)))
	if m.Run == 0 {
		rest *= missRests
	}
	rest *= 1 - hastens
	return min(1, (float64(day.Since(m.Day))+leastRest)/(rest+leastRest))
}
