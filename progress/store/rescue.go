package store

import (
	"database/sql"
	"errors"
	"fmt"
	"os"
	"time"

	"sparetone/progress/pages"
	"sparetone/progress/rescue"
	"sparetone/progress/tables"
	"sparetone/progress/whole"
)

// Rescue reads all that can still be read of a progress file, its log included, and writes it to a new one. An
// answer that is no longer what was written is not taken. The damaged file stays as it is.
func Rescue(path, to string, now func() time.Time) (rescue.Rescued, error) {
	if !whole.NotThere(to) {
		return rescue.Rescued{}, fmt.Errorf("%s is already there; nothing was written", to)
	}
	f, got, err := readDamaged(path, now)
	if err != nil {
		return got, fmt.Errorf("progress file %s: %w", path, err)
	}
	defer f.Close()
	return got, f.SaveAs(to)
}

// readDamaged reads what can be read of a file into memory.
func readDamaged(path string, now func() time.Time) (f *File, got rescue.Rescued, err error) {
	if path, err = tables.Resolve(path); err != nil {
		return nil, got, err
	}
	about, err := os.Stat(path)
	if err != nil {
		return nil, got, whole.Brief(err)
	}
	if err := ordinary(about); err != nil {
		return nil, got, err
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, got, whole.Brief(err)
	}
	defer file.Close()
	m, err := pages.Open(path, file, true)
	if err != nil {
		return nil, got, err
	}
	if f, err = InMemory(now); err != nil {
		return nil, got, err
	}
	err = tables.Write(f.db, func(tx *sql.Tx) (err error) {
		got, err = rescue.Pour(tx, m)
		return err
	})
	if err == nil && got.Answers+got.Sessions+got.Songs == 0 {
		err = errors.New("no answer can be read in it; nothing was written")
	}
	if err != nil {
		f.Close()
		return nil, got, tables.Plain(err)
	}
	return f, got, nil
}
