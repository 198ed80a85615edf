package progress

import (
	"database/sql"
	"errors"
	"fmt"
)

// ErrDamaged is wrapped by the error of a file that is damaged, as far as it can be told from one that is
// something else.
var ErrDamaged = errors.New("the file is damaged")

// damaged says what of a file is damaged.
func damaged(format string, args ...any) error {
	return fmt.Errorf("%w: "+format, append([]any{ErrDamaged}, args...)...)
}

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
		db := newPlace(f.Path()).open() // a connection of its own, so that practice need not wait
		defer db.Close()
		err := f.mend(db)
		if errors.Is(err, ErrDamaged) {
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
	var h Health
	if err := reading(db, h.check); err != nil {
		return err
	}
	if err := h.Err(); err != nil {
		return err
	}
	if len(h.Misfiled) > 0 {
		return writing(db, fileRightly)
	}
	if h.Stale {
		return writing(db, rebuild)
	}
	return nil
}

// Err returns what is damaged as an error of one line, or nil.
func (h Health) Err() error {
	switch n := len(h.Damaged); n {
	case 0:
		return nil
	case 1:
		return damaged("%s", h.Damaged[0])
	default:
		return damaged("%s, and %d more", h.Damaged[0], n-1)
	}
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
