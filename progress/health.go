package progress

import (
	"database/sql"
	"errors"
	"strings"
)

// Health is what Check found.
type Health struct {
	Answers  int
	Sessions int
	Items    int
	Damaged  []string // what is wrong with the file itself, a line each; empty if it is sound
	Misfiled []string // items under a drill they do not belong to; the next Open puts that right
	Stale    bool     // the derived tables do not follow from the answers; Rebuild mends that
}

// pages proves that SQLite finds the file whole, whatever the version of its schema, and counts what it holds.
func (h *Health) pages(tx *sql.Tx) error {
	say := func(row *sql.Rows) error {
		var line string
		err := row.Scan(&line)
		if line != "ok" {
			h.Damaged = append(h.Damaged, tidy(line))
		}
		return err
	}
	if err := each(tx, "PRAGMA integrity_check", nil, say); err != nil {
		return h.orDamaged(err)
	}
	if err := each(tx, `SELECT "table" || ' speaks of an item that is not there' FROM pragma_foreign_key_check`, nil, say); err != nil {
		return h.orDamaged(err)
	}
	return h.orDamaged(tx.QueryRow("SELECT (SELECT count(*) FROM answers), (SELECT count(*) FROM sessions), (SELECT count(*) FROM items)").
		Scan(&h.Answers, &h.Sessions, &h.Items))
}

func (h *Health) check(tx *sql.Tx) error {
	if err := h.pages(tx); err != nil || len(h.Damaged) > 0 {
		return err
	}
	rows, err := brokenRows(tx)
	if err != nil {
		return h.orDamaged(err)
	}
	h.Damaged = append(h.Damaged, rows...)
	should, err := derive(tx, func(k kept) {
		if fault := k.fault(); fault != "" {
			h.Damaged = append(h.Damaged, fault)
		}
	})
	if err != nil {
		return h.orDamaged(err)
	}
	if len(h.Damaged) > 0 {
		return nil
	}
	if h.Misfiled, err = misfiled(tx); err != nil {
		return h.orDamaged(err)
	}
	has, err := loadFrom(tx, allWeeks(0))
	if err != nil && !errors.Is(err, errJunk) {
		return h.orDamaged(err)
	}
	h.Stale = err != nil || !has.same(should)
	return nil
}

// orDamaged counts an error as damage if that is what it is: SQLite met a page that cannot be, or a row does
// not read as what it should.
func (h *Health) orDamaged(err error) error {
	says := "a row of it cannot be read"
	switch {
	case err == nil:
		return nil
	case isOfSQLite(err):
		if err = plain(err); !errors.Is(err, ErrDamaged) {
			return err
		}
		says = "a page of it cannot be read"
	case errors.Is(err, ErrDamaged):
		says = strings.TrimPrefix(err.Error(), ErrDamaged.Error()+": ")
	}
	h.Damaged = append(h.Damaged, tidy(says))
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
