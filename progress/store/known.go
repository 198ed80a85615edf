package store

import (
	"database/sql"

	"sparetone/progress/clock"
	"sparetone/progress/memory"
	"sparetone/progress/tables"
)

// Known returns what a planner needs of the file, as it is now: what follows from the answers, but for the counts of weeks
// that are long ago, and what the file takes for now.
func (f *File) Known() (known *memory.Derived, is clock.Present, err error) {
	err = f.read(func(tx *sql.Tx) (err error) {
		known, is, err = tables.DerivedNow(tx, f.now(), memory.FirstRecentWeek)
		return err
	})
	return known, is, err
}
