package store

import (
	"fmt"
	"os"
	"time"

	"sparetone/progress/pages"
	"sparetone/progress/tables"
	"sparetone/progress/whole"
)

// OpenToRead reads the progress file at a path as it is at this moment, and proves it. Nothing is written, not
// to the file and not beside it, so it may lie where nothing can be. What has to be worked out anew is worked
// out in memory.
//
// It refuses what Open refuses. A file that is damaged is not read either: Rescue is for that. If what was
// written last is broken off, the file is read and the error says so.
func OpenToRead(path string, now func() time.Time) (*File, error) {
	path, err := tables.Resolve(path)
	if err != nil {
		return nil, err
	}
	if !whole.NotThere(path + restoring) {
		path += restoring // it only waits to take the other's place
	}
	if hasJournal(path) {
		return Open(path, now) // it is only being made
	}
	f, err := openToRead(path, now)
	if err != nil && err != pages.ErrTorn {
		return nil, fmt.Errorf("progress file %s: %w", path, tables.Plain(err))
	}
	if err != nil {
		f.failed = append(f.failed, fmt.Errorf("progress file %s: %w", path, err))
	}
	return f, nil
}

func openToRead(path string, now func() time.Time) (*File, error) {
	about, err := os.Stat(path)
	if err != nil {
		return nil, whole.Brief(err)
	}
	if err := ordinary(about); err != nil {
		return nil, err
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, whole.Brief(err)
	}
	defer file.Close()
	m, err := pages.Open(path, file, true)
	if err != nil {
		return nil, err
	}
	if m.Size == 0 && len(m.Log.All) == 0 {
		return InMemory(now)
	}
	torn := usable(m)
	if torn != nil && torn != pages.ErrTorn {
		return nil, torn
	}
	f := newFile("", now)
	f.at.Bytes = m.Flat()
	if err := f.proveInMemory(); err != nil {
		f.Close()
		return nil, err
	}
	return f, torn
}

// proveInMemory proves a file that is in memory and brings it up to date there.
func (f *File) proveInMemory() error {
	if err := f.prepare(); err != nil {
		return err
	}
	var h tables.Health
	if err := f.read(h.Check); err != nil {
		return err
	}
	f.health = &h
	if err := h.Err(); err != nil {
		return err
	}
	if len(h.Misfiled) > 0 {
		return f.change(tables.RefileItems)
	}
	if h.Stale {
		return f.Rebuild()
	}
	return nil
}
