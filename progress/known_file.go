package progress

import "database/sql"

// Known returns what a planner needs of the file, as it is now: what follows from the answers, but for the counts of weeks
// that are long ago, and what the file takes for now.
func (f *File) Known() (known *derived, is present, err error) {
	err = f.read(func(tx *sql.Tx) (err error) {
		known, is, err = knownNow(tx, f.now(), recent)
		return err
	})
	return known, is, err
}
