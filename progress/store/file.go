package store

import (
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"time"

	"sparetone/progress/clock"
	"sparetone/progress/tables"
	"sparetone/progress/whole"
)

// File is a progress file, or practice kept in memory only. Several programs may have one file open
// at once. A File is safe for concurrent use.
//
// It is an SQLite database in WAL mode with synchronous=FULL: a commit is one append and one sync,
// which takes a fraction of a millisecond where a rollback journal takes three syncs; a reader never
// waits for a writer; and what was not yet synced when the power went is left out as a whole.
type File struct {
	db  *sql.DB
	at  *tables.Connector
	now func() time.Time

	doing  sync.Mutex
	deeds  []deed         // all that this program did to the file, in order
	latest [16]byte       // id of the answer that was recorded last
	done   int            // of these, in the file
	home   found          // the file as it was opened
	adrift error          // why home is no longer what lies at the path; nil if it is
	health *tables.Health // of a file that is only read, as it was opened
	rotten error          // what was found damaged while practice went on; nil if nothing was

	aside   sync.WaitGroup // what is done while the program goes on: a check, the day's copy, a fit
	failing sync.Mutex
	failed  []error // what went wrong with it
	told    int     // of these, told by Follow
}

func newFile(path string, now func() time.Time) *File {
	f := &File{at: tables.NewConnector(path), now: func() time.Time { return clock.Writable(now()) }}
	f.db = f.at.Open()
	return f
}

// Path returns where the file lies; it is empty for practice kept in memory.
func (f *File) Path() string { return *f.at.Path.Load() }

// Close closes the file, once the day's backup is made and the memory model fitted, if they are under
// way; it returns what went wrong with that. Every answer was safe before.
func (f *File) Close() error {
	f.aside.Wait()
	return errors.Join(append(f.failed, f.db.Close())...)
}

// alongside does something while the program goes on.
func (f *File) alongside(do func() error) {
	f.aside.Go(func() {
		if err := do(); err != nil {
			f.failing.Lock()
			defer f.failing.Unlock()
			f.failed = append(f.failed, err)
		}
	})
}

// SaveAs writes a copy of all there is to a new progress file. It never writes over anything.
func (f *File) SaveAs(path string) error {
	if _, err := os.Lstat(path); !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%s is already there; nothing was written", path)
	}
	if err := whole.MakeFolder(filepath.Dir(path)); err != nil {
		return err
	}
	return copyTo(f.db, path)
}

// change does something to the file as one whole: all of it is on the disk when change returns nil,
// and none of it if it returns an error. Derived tables that cannot be read are made again for it.
func (f *File) change(do func(tx *sql.Tx) error) error {
	err := tables.Write(f.db, do)
	if errors.Is(err, tables.ErrJunk) {
		err = tables.Write(f.db, func(tx *sql.Tx) error {
			if err := tables.Rebuild(tx); err != nil {
				return err
			}
			return do(tx)
		})
	}
	return tables.Plain(err)
}

// read reads the file as it is at one moment, whatever is written meanwhile. Derived tables that cannot be
// read are made again for it.
func (f *File) read(do func(tx *sql.Tx) error) error {
	err := tables.Read(f.db, do)
	if errors.Is(err, tables.ErrJunk) {
		if err = tables.Write(f.db, tables.Rebuild); err == nil {
			err = tables.Read(f.db, do)
		}
	}
	return tables.Plain(err)
}

// deed is something done to the file. Done again, also to another file, it changes nothing that it has
// changed before.
type deed struct {
	answer bool // it keeps an answer
	back   bool // it takes one back
	do     func(tx *sql.Tx) error
}
