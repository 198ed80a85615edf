package store

import (
	"database/sql"
	"fmt"

	"sparetone/progress"
	"sparetone/progress/tables"
)

// Whose returns whose practice the file holds.
func (f *File) Whose() (progress.Whose, error) {
	w, err := tables.WhoseIs(f.db)
	return w, tables.Plain(err)
}

// SetName gives the student a name, which goes with every export; "" takes it away.
func (f *File) SetName(name string) error {
	if len(name) > tables.LongestName || progress.Tidy(name) != name {
		return ErrName
	}
	return f.change(func(tx *sql.Tx) error { return tables.SetOrClear(tx, tables.NameKey, name) })
}

// ErrName is the error of a name that cannot be kept.
var ErrName = fmt.Errorf("a name is a line of %d bytes at most, without control characters", tables.LongestName)
