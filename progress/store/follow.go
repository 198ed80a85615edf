package store

import (
	"cmp"
	"context"
	"database/sql"
	"database/sql/driver"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"sparetone/progress"
	"sparetone/progress/tables"
	"sparetone/progress/whole"
)

// While practice goes on, somebody may delete the file, put a backup in its place, or have a folder
// synchronised that it lies in. SQLite goes on writing to what it opened, which then has no name and is
// gone when the program ends. Follow notices, and takes practice back to where the file should be:
//
//	nothing lies there   all of it is written anew
//	a progress file      what this program did is done to that one as well
//	anything else        it is left alone; AtRisk says so, and GoOnIn takes practice elsewhere
//
// The file is looked at by name only. Opening and closing it would drop the locks that SQLite holds on it
// (https://www.sqlite.org/howtocorrupt.html, section 2.2), so one that is written over in place is noticed
// only if it gets shorter, or when SQLite reads it.

// Follow sees to it that the file at the path is the one that is written to. It returns nil if it was, and
// otherwise, once for each time it was not, an error of one line that says what has become of it. What went
// wrong while practice went on, such as the day's copy, is told in the same way.
func (f *File) Follow() error {
	f.doing.Lock()
	defer f.doing.Unlock()
	path := f.Path()
	if path == "" {
		return nil
	}
	if err := f.whereabouts(path); err != nil {
		return err
	}
	return f.wentWrong()
}

// wentWrong returns the next thing that went wrong beside practice and was not told, nil if there is none. That a file
// is damaged is not told of one that is no longer what it was: why it is not has been told.
func (f *File) wentWrong() error {
	f.failing.Lock()
	defer f.failing.Unlock()
	for f.told < len(f.failed) {
		f.told++
		if err := f.failed[f.told-1]; f.adrift == nil || !errors.Is(err, progress.ErrDamaged) {
			return err
		}
	}
	return nil
}

// whereabouts takes practice back to the path if something else lies there than the file that was opened.
func (f *File) whereabouts(path string) error {
	now, err := os.Stat(path)
	switch {
	case err == nil && os.SameFile(now, f.home.file):
		if now.Size() >= f.home.file.Size() { // it never shrinks by itself
			f.adrift = nil
			return nil
		}
		err = errors.New("the progress file was cut short by another program; it was left as it is")
	case errors.Is(err, fs.ErrNotExist):
		f.clearLogs(path)
		if err = f.goTo(path); err == nil {
			return errors.New("the progress file was taken away; it was written anew, with all that was in it")
		}
		err = fmt.Errorf("the progress file was taken away and cannot be written anew: %w", whole.Brief(err))
	default:
		f.clearLogs(path)
		if err = f.join(path); err == nil {
			return errors.New("another progress file was put in the place of this one; what was practised since the start was added to it")
		}
		err = fmt.Errorf("the progress file was replaced: %w", whole.Brief(cmp.Or(errors.Unwrap(err), err))) // it names the path
	}
	known := f.adrift != nil && f.adrift.Error() == err.Error()
	f.adrift = err
	if known {
		return nil
	}
	return err
}

// clearLogs takes away the logs of the file that is gone: SQLite would take them for those of whatever
// lies there now.
func (f *File) clearLogs(path string) {
	log, err := os.Stat(path + "-wal")
	if err != nil || f.home.log == nil || !os.SameFile(log, f.home.log) {
		return
	}
	// If they cannot be taken away, neither can anything be put there, which says so.
	_ = os.Remove(path + "-wal")
	_ = os.Remove(path + "-shm")
}

// GoOnIn writes all there is to a new progress file and goes on in that one. It never writes over
// anything. If what there was cannot be read any more, the new file has what this program did, and the
// error wraps ErrOnlySince.
func (f *File) GoOnIn(path string) error {
	f.doing.Lock()
	defer f.doing.Unlock()
	err := f.goTo(path)
	if err == nil {
		return nil
	}
	if _, there := os.Lstat(path); there == nil {
		return err
	}
	// Either nothing can be written there, or nothing can be read here.
	if f.join(path) != nil {
		for _, begun := range []string{"", "-wal", "-shm", "-journal"} {
			_ = os.Remove(path + begun)
		}
		return err
	}
	return fmt.Errorf("%w: %w", ErrOnlySince, err)
}

// ErrOnlySince is wrapped by the error of GoOnIn where what was kept before this program began could not
// be read any more.
var ErrOnlySince = errors.New("only what was practised since the start could be saved")

// goTo writes all there is to a path where nothing is, and goes on there.
func (f *File) goTo(path string) error {
	if err := f.SaveAs(path); err != nil {
		return err
	}
	if err := f.turn(path); err != nil {
		return err
	}
	return f.catchUp()
}

// join does all that this program did to the progress file at a path, which is made if nothing is there,
// and goes on there.
func (f *File) join(path string) error {
	other, err := Open(path, f.now)
	if err != nil {
		return err
	}
	if err := other.Close(); err != nil {
		return err
	}
	if err := f.turn(path); err != nil {
		return err
	}
	var last, at int64
	err = f.db.QueryRow("SELECT coalesce(max(n), 0), coalesce((SELECT at FROM answers ORDER BY n DESC LIMIT 1), 0) FROM answers").Scan(&last, &at)
	if err != nil {
		return tables.Plain(err)
	}
	f.done = 0
	if err := f.catchUp(); err != nil {
		return err
	}
	return f.putInPlace(last, at)
}

// putInPlace puts the answers that were added after a number into their place in time, if the first of them was given
// before the one with that number; at is when that was.
func (f *File) putInPlace(last, at int64) error {
	return f.change(func(tx *sql.Tx) error {
		var first int64
		err := tx.QueryRow("SELECT at FROM answers WHERE n > ? ORDER BY n LIMIT 1", last).Scan(&first)
		if errors.Is(err, sql.ErrNoRows) || err == nil && first >= at {
			return nil
		}
		if err != nil {
			return err
		}
		if err := tables.Interleave(tx, last, nil, f.now()); err != nil {
			return err
		}
		return tables.Rebuild(tx)
	})
}

// turn leaves the database that is open and opens the one at a path.
func (f *File) turn(path string) error {
	f.at.Path.Store(&path)
	c, err := f.db.Conn(context.Background())
	if err != nil {
		return tables.Plain(err)
	}
	_ = c.Raw(func(any) error { return driver.ErrBadConn }) // so that it is not used again
	_ = c.Close()
	// The log is there from the first reading on.
	if _, err := f.db.Exec("PRAGMA journal_mode = WAL; SELECT count(*) FROM sessions"); err != nil {
		return tables.Plain(err)
	}
	if f.home, err = find(path); err == nil {
		f.adrift, f.rotten = nil, nil
	}
	return err
}
