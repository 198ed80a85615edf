package store

import (
	"database/sql"
	"errors"

	"sparetone/progress"
	"sparetone/progress/tables"
)

// Check proves the file: that SQLite finds it whole, that every answer can be read and says what was
// written, and that the derived tables are what the answers make them. It takes some seconds for a million
// answers. What Open finds by itself is found by Check as well.
func (f *File) Check() (tables.Health, error) {
	if f.health != nil {
		return *f.health, nil
	}
	var h tables.Health
	err := f.read(h.Check)
	return h, err
}

// Rebuild makes again all that is derived from the answers.
func (f *File) Rebuild() error { return f.change(tables.Rebuild) }

// mostAtOnce is the size in bytes of the largest file that is checked before practice begins: some 6,000
// answers. A larger one is checked while practice goes on.
const mostAtOnce = 1 << 20

// check proves the file as Check does, at once if it is small and alongside if it is large. What is derived
// and does not follow from the answers is made again.
func (f *File) check() error {
	var pages, size int64
	if err := f.db.QueryRow("SELECT page_count, page_size FROM pragma_page_count, pragma_page_size").Scan(&pages, &size); err != nil {
		return err
	}
	if pages*size <= mostAtOnce {
		return f.mend(f.db)
	}
	f.alongside(func() error {
		db := tables.NewConnector(f.Path()).Open() // a connection of its own, so that practice need not wait
		defer db.Close()
		err := f.mend(db)
		if errors.Is(err, progress.ErrDamaged) {
			f.doing.Lock()
			defer f.doing.Unlock()
			f.rotten = err
		}
		return err
	})
	return nil
}

// mend proves a file and makes again what is derived, if it has to be.
func (f *File) mend(db *sql.DB) error {
	var h tables.Health
	if err := tables.Read(db, h.Check); err != nil {
		return err
	}
	if err := h.Err(); err != nil {
		return err
	}
	if len(h.Misfiled) > 0 {
		return tables.Write(db, tables.RefileItems)
	}
	if h.Stale {
		return tables.Write(db, tables.Rebuild)
	}
	return nil
}
