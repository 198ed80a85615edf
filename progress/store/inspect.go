package store

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"

	"sparetone/progress"
	"sparetone/progress/pages"
	"sparetone/progress/tables"
	"sparetone/progress/whole"
)

// inspect looks at a file before SQLite may touch it, and makes an empty one if there is none. Its error is
// ErrTorn if SQLite may have it, but something written last is missing.
func inspect(path string) error {
	file, err := os.OpenFile(path, os.O_CREATE|os.O_RDWR, 0o600)
	if errors.Is(err, syscall.EISDIR) {
		return errFolder
	}
	if err != nil {
		return whole.Brief(err)
	}
	defer file.Close()
	about, err := file.Stat()
	if err != nil {
		return whole.Brief(err)
	}
	if err := ordinary(about); err != nil {
		return err
	}
	if about.Size() == 0 {
		if log, err := pages.ReadLog(path); err != nil || len(log) > 0 {
			return cmp.Or(err, progress.Damaged("it is empty, but its log is not"))
		}
		whole.SyncFolder(filepath.Dir(path))
		return nil
	}
	if hasJournal(path) {
		return nil // SQLite makes it whole from what it was before
	}
	m, err := pages.Open(path, file, false)
	if err != nil {
		return err
	}
	return usable(m)
}

// usable says why a file is none that can be used. The error is ErrTorn if it can be used, but something
// written last is missing.
func usable(m *pages.Image) error {
	head := make([]byte, pages.HeaderSize)
	n, _ := m.File.ReadAt(head, 0)
	if first := m.Page(1); first != nil {
		n = copy(head, first)
	}
	if err := headerFault(head[:n]); err != nil {
		return err
	}
	if err := m.Fault(); err != nil {
		return err
	}
	if m.Log.Torn {
		return pages.ErrTorn
	}
	return nil
}

// hasJournal reports whether a program that was killed left a journal, from which SQLite will make a file what
// it was before. That is so while a file is being made.
func hasJournal(path string) bool {
	about, err := os.Stat(path + "-journal")
	return err == nil && about.Size() > 0
}

// headerFault says why a file is none of ours, by its first bytes.
func headerFault(head []byte) error {
	if len(head) < pages.HeaderSize || !bytes.HasPrefix(head, pages.Magic) {
		return errors.New("this is not a progress file; it was left as it is")
	}
	if binary.BigEndian.Uint32(head[pages.ApplicationIDAt:]) != tables.ApplicationID {
		return errors.New("this belongs to another program; it was left as it is")
	}
	if v := int(binary.BigEndian.Uint32(head[pages.UserVersionAt:])); v > len(tables.Migrations) {
		return tables.Newer(v)
	}
	return nil
}

var errFolder = errors.New("this is a folder; name a file")

// ordinary says what something that is no file is.
func ordinary(about fs.FileInfo) error {
	switch {
	case about.IsDir():
		return errFolder
	case !about.Mode().IsRegular():
		return errors.New("this is not an ordinary file")
	}
	return nil
}
