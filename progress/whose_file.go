package progress

import (
	"database/sql"
	"fmt"
)

// Whose returns whose practice the file holds.
func (f *File) Whose() (Whose, error) {
	w, err := whoseIs(f.db)
	return w, plain(err)
}

// SetName gives the student a name, which goes with every export; "" takes it away.
func (f *File) SetName(name string) error {
	if len(name) > longestName || tidy(name) != name {
		return ErrName
	}
	return f.change(func(tx *sql.Tx) error { return setOrClear(tx, nameKey, name) })
}

// ErrName is the error of a name that cannot be kept.
var ErrName = fmt.Errorf("a name is a line of %d bytes at most, without control characters", longestName)
