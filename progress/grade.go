package progress

import (
	"database/sql"
	"slices"
	"time"
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
func gradeOf(a Answer, usual time.Duration, first bool) Grade {
	switch {
	case a.Result == Wrong:
		return Missed
	case a.Result == Partly || a.Replays > 0 || a.Hints > 0:
		return Shaky
	case first || usual == 0 || a.Took > usual:
		return Firm
	}
	return Fluent
}

const (
	paceKept   = 50 // right answers a drill whose times are kept
	paceEnough = 8  // of these, before a usual time is known
)

// usualTime returns the median time of the latest right answers in a drill, or 0 if they are too few.
func usualTime(tx *sql.Tx, drill string) (time.Duration, error) {
	rows, err := tx.Query("SELECT took FROM pace WHERE drill = ?", drill)
	if err != nil {
		return 0, err
	}
	defer rows.Close()
	var took []int64
	for rows.Next() {
		var ms int64
		if err := rows.Scan(&ms); err != nil {
			return 0, err
		}
		took = append(took, ms)
	}
	return median(took), rows.Err()
}

func median(took []int64) time.Duration {
	if len(took) < paceEnough {
		return 0
	}
	slices.Sort(took)
	return time.Duration(took[len(took)/2]) * time.Millisecond
}
