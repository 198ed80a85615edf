package progress

import (
	"errors"
	"fmt"

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

// errJunk is the error of derived tables that cannot be read. They are made again where it occurs.
var errJunk = errors.New("what is worked out from the answers cannot be read")

// junk turns an error that is no error of SQLite, met while derived tables are read, into errJunk.
func junk(err error) error {
	if err == nil || isOfSQLite(err) {
		return err
	}
	return fmt.Errorf("%w: %w", errJunk, err)
}
