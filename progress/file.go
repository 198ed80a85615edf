package progress

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"time"
)

// File is a progress file, or practice kept in memory only. Several programs may have one file open
// at once. A File is safe for concurrent use.
//
// It is an SQLite database in WAL mode with synchronous=FULL: a commit is one append and one sync,
// which takes a fraction of a millisecond where a rollback journal takes three syncs; a reader never
// waits for a writer; and what was not yet synced when the power went is left out as a whole.
type File struct {
	db  *sql.DB
	at  *place
	now func() time.Time

	doing  sync.Mutex
	deeds  []deed  // all that this program did to the file, in order
	done   int     // of these, in the file
	home   found   // the file as it was opened
	adrift error   // why home is no longer what lies at the path; nil if it is
	health *Health // of a file that is only read, as it was opened
	rotten error   // what was found damaged while practice went on; nil if nothing was

	aside   sync.WaitGroup // what is done while the program goes on: a check, the day's copy, a fit
	failing sync.Mutex
	failed  []error // what went wrong with it
	told    int     // of these, told by Follow
}

// Open opens the progress file at a path, and makes it and its folder if they are not there, readable
// by their owner only. The clock's time zone is the student's.
//
// What cannot be used is refused with an error of one line and left as it was: what is not SQLite or
// belongs to another program, a file cut short, one that a newer version of this program wrote, one
// that may not be read or written, one that is damaged or holds what this program did not put there. A large
// file is checked while the program goes on; Follow and Close tell what is found.
//
// The day's first Open makes a copy beside the file while the program goes on; so does one that
// brings the file to a newer schema, before it does.
func Open(path string, now func() time.Time) (*File, error) {
	path, err := resolve(path)
	if err != nil {
		return nil, err
	}
	if err := makeFolder(filepath.Dir(path)); err != nil {
		return nil, fmt.Errorf("no folder for the progress file: %w", err)
	}
	if err := finishRestore(path); err != nil {
		return nil, err
	}
	torn := inspect(path)
	if torn != nil && torn != errTorn {
		return nil, fmt.Errorf("progress file %s: %w", path, torn)
	}
	f := newFile(path, now)
	if torn != nil {
		f.failed = append(f.failed, fmt.Errorf("progress file %s: %w", path, torn))
	}
	if err = f.prepare(); err == nil {
		err = f.check()
	}
	if err == nil {
		err = f.daily()
	}
	if err == nil {
		f.home, err = find(path)
	}
	if err != nil {
		f.Close()
		return nil, fmt.Errorf("progress file %s: %w", path, plain(err))
	}
	return f, nil
}

// InMemory keeps practice until the program ends, or until GoOnIn.
func InMemory(now func() time.Time) (*File, error) {
	f := newFile("", now)
	if err := f.prepare(); err != nil {
		f.Close()
		return nil, err
	}
	return f, nil
}

func newFile(path string, now func() time.Time) *File {
	f := &File{at: newPlace(path), now: func() time.Time { return written(now()) }}
	f.db = f.at.open()
	return f
}

// Path returns where the file lies; it is empty for practice kept in memory.
func (f *File) Path() string { return *f.at.path.Load() }

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
	if err := makeFolder(filepath.Dir(path)); err != nil {
		return err
	}
	return copyTo(f.db, path)
}

// change does something to the file as one whole: all of it is on the disk when change returns nil,
// and none of it if it returns an error. Derived tables that cannot be read are made again for it.
func (f *File) change(do func(tx *sql.Tx) error) error {
	err := writing(f.db, do)
	if errors.Is(err, errJunk) {
		err = writing(f.db, func(tx *sql.Tx) error {
			if err := rebuild(tx); err != nil {
				return err
			}
			return do(tx)
		})
	}
	return plain(err)
}

// read reads the file as it is at one moment, whatever is written meanwhile. Derived tables that cannot be
// read are made again for it.
func (f *File) read(do func(tx *sql.Tx) error) error {
	err := reading(f.db, do)
	if errors.Is(err, errJunk) {
		if err = writing(f.db, rebuild); err == nil {
			err = reading(f.db, do)
		}
	}
	return plain(err)
}

func writing(db *sql.DB, do func(tx *sql.Tx) error) error {
	tx, err := db.BeginTx(context.Background(), nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	if err := do(tx); err != nil {
		return err
	}
	return tx.Commit()
}

func reading(db *sql.DB, do func(tx *sql.Tx) error) error {
	tx, err := db.BeginTx(context.Background(), &sql.TxOptions{ReadOnly: true})
	if err != nil {
		return err
	}
	defer tx.Rollback()
	return do(tx)
}

// notThere reports whether nothing lies at a path.
func notThere(path string) bool {
	_, err := os.Lstat(path)
	return errors.Is(err, fs.ErrNotExist)
}
