package store

import (
	"context"
	"database/sql"
	"fmt"
	"path/filepath"
	"sync"
	"time"

	"sparetone/progress/pages"
	"sparetone/progress/tables"
	"sparetone/progress/whole"
)

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
	path, err := tables.Resolve(path)
	if err != nil {
		return nil, err
	}
	if err := whole.MakeFolder(filepath.Dir(path)); err != nil {
		return nil, fmt.Errorf("no folder for the progress file: %w", err)
	}
	if err := finishRestore(path); err != nil {
		return nil, err
	}
	torn := inspect(path)
	if torn != nil && torn != pages.ErrTorn {
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
		return nil, fmt.Errorf("progress file %s: %w", path, tables.Plain(err))
	}
	return f, nil
}

// InMemory keeps practice until the program ends, or until GoOnIn.
func InMemory(now func() time.Time) (*File, error) {
	f, err := newFile("", now), error(nil)
	if f.at.Bytes, err = unwritten(); err == nil {
		err = f.change(tables.GiveID)
	}
	if err != nil {
		f.Close()
		return nil, err
	}
	return f, nil
}

// unwritten returns a file of today's version in which nothing is yet, not even whose it is. To make it anew for each file in
// memory took most of the time of tests that need many.
var unwritten = sync.OnceValues(func() (file []byte, err error) {
	db := tables.NewConnector("").Open()
	defer db.Close()
	if err := tables.Write(db, func(tx *sql.Tx) error { return tables.Migrate(tx, 0, len(tables.Migrations)) }); err != nil {
		return nil, err
	}
	c, err := db.Conn(context.Background())
	if err != nil {
		return nil, err
	}
	defer c.Close()
	err = c.Raw(func(c any) error {
		file, err = c.(interface{ Serialize() ([]byte, error) }).Serialize()
		return err
	})
	return file, err
})
