package progress

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"
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

// inspect looks at a file before SQLite may touch it, and makes an empty one if there is none.
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
		syncFolder(filepath.Dir(path))
		return nil
	}
	head := make([]byte, headerSize)
	if n, _ := io.ReadFull(file, head); n < headerSize || !bytes.HasPrefix(head, magic) {
		return errors.New("this is not a progress file; it was left as it is")
	}
	if binary.BigEndian.Uint32(head[applicationIDAt:]) != applicationID {
		return errors.New("this belongs to another program; it was left as it is")
	}
	if v := int(binary.BigEndian.Uint32(head[userVersionAt:])); v > len(migrations) {
		return newer(v)
	}
	page := int64(binary.BigEndian.Uint16(head[pageSizeAt:]))
	if page == 1 {
		page = 65536
	}
	whole := page * int64(binary.BigEndian.Uint32(head[pagesAt:]))
	if about.Size() < whole && !hasLog(path) {
		return fmt.Errorf("the file is cut short: %d bytes of %d; it was left as it is", about.Size(), whole)
	}
	return nil
}

// hasLog reports whether a program that was killed left a log, from which SQLite will make the file
// whole: the write-ahead log, or the rollback journal while the file was being made.
func hasLog(path string) bool {
	for _, log := range []string{path + "-wal", path + "-journal"} {
		if about, err := os.Stat(log); err == nil && about.Size() > 0 {
			return true
		}
	}
	return false
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
