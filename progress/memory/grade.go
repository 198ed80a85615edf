package memory

import (
	"time"

	"sparetone/progress"
)

// Grade says how firmly an answer shows that something is remembered. FSRS-6 has four of them too,
// in the same order, numbered from 1.
type Grade int

const (
	Missed Grade = iota + 1 // wrong
	Shaky                   // partly right, or right only after hearing it again or a hint
	Firm                    // right, but slower than this student usually is
	Fluent                  // right at once
)

// gradeOf grades an answer. The student's usual time for the drill is 0 if it is not known yet. What
// is named right the first time it is ever asked may be luck or known from elsewhere, and is no more
// than Firm.
func gradeOf(a progress.Answer, usual time.Duration, first bool) Grade {
	switch {
	case a.Result == progress.Wrong:
		return Missed
	case a.Result == progress.Partly || a.Replays > 0 || a.Hints > 0:
		return Shaky
	case first || a.Took > usual:
		return Firm
	}
	return Fluent
}
