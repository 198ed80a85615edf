package tables

import (
	"errors"
	"fmt"

	"sparetone/progress"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"
)

// faults says in plain words what SQLite means.
var faults = map[int]string{
	sqlite3.SQLITE_FULL:     "the disk is full; nothing was changed",
	sqlite3.SQLITE_READONLY: "the file or its folder may not be written to",
	sqlite3.SQLITE_CANTOPEN: "the file cannot be opened for writing",
	sqlite3.SQLITE_BUSY:     "another program is holding the file",
	sqlite3.SQLITE_IOERR:    "the disk gave an error",
}

// Plain puts an SQLite error in plain words where there are some. The low byte of an extended result
// code is the code itself.
func Plain(err error) error {
	var e *sqlite.Error
	if errors.As(err, &e) {
		if code := e.Code() & 0xff; code == sqlite3.SQLITE_CORRUPT || code == sqlite3.SQLITE_NOTADB {
			return progress.ErrDamaged
		}
		if words, ok := faults[e.Code()&0xff]; ok {
			return errors.New(words)
		}
	}
	return err
}

// IsOfSQLite reports whether an error comes from SQLite, not from what was read.
func IsOfSQLite(err error) bool {
	var e *sqlite.Error
	return errors.As(err, &e)
}

// ErrJunk is the error of derived tables that cannot be read. They are made again where it occurs.
var ErrJunk = errors.New("what is worked out from the answers cannot be read")

// junk turns an error that is no error of SQLite, met while derived tables are read, into ErrJunk.
func junk(err error) error {
	if err == nil || IsOfSQLite(err) {
		return err
	}
	return fmt.Errorf("%w: %w", ErrJunk, err)
}
