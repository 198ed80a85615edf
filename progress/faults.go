package progress

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"

	"sparetone/progress/whole"
)

// Where the header of an SQLite file says what it is; all numbers big-endian. Source: the SQLite
// file format, section 1.3, https://www.sqlite.org/fileformat2.html.
const (
	headerSize      = 100
	pageSizeAt      = 16
	pagesAt         = 28
	userVersionAt   = 60
	applicationIDAt = 68
)

var magic = []byte("SQLite format 3\x00")

// inspect looks at a file before SQLite may touch it, and makes an empty one if there is none. Its error is
// errTorn if SQLite may have it, but something written last is missing.
func inspect(path string) error {
	file, err := os.OpenFile(path, os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		return brief(err)
	}
	defer file.Close()
	about, err := file.Stat()
	if err != nil {
		return brief(err)
	}
	if !about.Mode().IsRegular() {
		return errors.New("this is not an ordinary file")
	}
	if about.Size() == 0 {
		if log, err := logOf(path); err != nil || len(log) > 0 {
			return cmp.Or(err, damaged("it is empty, but its log is not"))
		}
		whole.SyncFolder(filepath.Dir(path))
		return nil
	}
	if hasJournal(path) {
		return nil // SQLite makes it whole from what it was before
	}
	m, err := openImage(path, file, false)
	if err != nil {
		return err
	}
	return m.usable()
}

// usable says why a file is none that can be used. The error is errTorn if it can be used, but something
// written last is missing.
func (m *image) usable() error {
	head := make([]byte, headerSize)
	n, _ := m.file.ReadAt(head, 0)
	if first := m.page(1); first != nil {
		n = copy(head, first)
	}
	if err := headerFault(head[:n]); err != nil {
		return err
	}
	if err := m.fault(); err != nil {
		return err
	}
	if m.log.torn {
		return errTorn
	}
	return nil
}

// hasJournal reports whether a program that was killed left a journal, from which SQLite will make a file what
// it was before. That is so while a file is being made.
func hasJournal(path string) bool {
	about, err := os.Stat(path + "-journal")
	return err == nil && about.Size() > 0
}

func newer(version int) error {
	return fmt.Errorf("a newer sparetone wrote it (schema %d, this one knows up to %d); it was left as it is", version, len(migrations))
}

// brief takes the path out of an error of the file system: the caller has said it.
func brief(err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		return at.Err
	}
	return err
}

// faults says in plain words what SQLite means.
var faults = map[int]string{
	sqlite3.SQLITE_FULL:     "the disk is full; nothing was changed",
	sqlite3.SQLITE_READONLY: "the file or its folder may not be written to",
	sqlite3.SQLITE_CANTOPEN: "the file cannot be opened for writing",
	sqlite3.SQLITE_BUSY:     "another program is holding the file",
	sqlite3.SQLITE_IOERR:    "the disk gave an error",
}

// plain puts an SQLite error in plain words where there are some. The low byte of an extended result
// code is the code itself.
func plain(err error) error {
	var e *sqlite.Error
	if errors.As(err, &e) {
		if code := e.Code() & 0xff; code == sqlite3.SQLITE_CORRUPT || code == sqlite3.SQLITE_NOTADB {
			return ErrDamaged
		}
		if words, ok := faults[e.Code()&0xff]; ok {
			return errors.New(words)
		}
	}
	return err
}

// isOfSQLite reports whether an error comes from SQLite, not from what was read.
func isOfSQLite(err error) bool {
	var e *sqlite.Error
	return errors.As(err, &e)
}
