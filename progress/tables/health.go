package tables

import (
	"database/sql"
	"errors"
	"strings"

	"sparetone/progress"
)

// Health is what Check found.
type Health struct {
	Answers  int
	Sessions int
	Songs    int // that are kept, in a file of the present version
	Items    int
	Damaged  []string // what is wrong with the file itself, a line each; empty if it is sound
	Misfiled []string // items under a drill they do not belong to; the next Open puts that right
	Stale    bool     // the derived tables do not follow from the answers; Rebuild mends that
}

// Pages proves that SQLite finds the file whole, whatever the version of its schema, and counts what it holds.
func (h *Health) Pages(tx *sql.Tx) error {
	say := func(row *sql.Rows) error {
		var line string
		err := row.Scan(&line)
		if line != "ok" {
			h.Damaged = append(h.Damaged, progress.Tidy(line))
		}
		return err
	}
	if err := Each(tx, "PRAGMA integrity_check", nil, say); err != nil {
		return h.orDamaged(err)
	}
	if err := Each(tx, `SELECT "table" || ' speaks of an item that is not there' FROM pragma_foreign_key_check`, nil, say); err != nil {
		return h.orDamaged(err)
	}
	return h.orDamaged(tx.QueryRow("SELECT (SELECT count(*) FROM answers), (SELECT count(*) FROM sessions), (SELECT count(*) FROM items)").
		Scan(&h.Answers, &h.Sessions, &h.Items))
}

func (h *Health) Check(tx *sql.Tx) error {
	if err := h.Pages(tx); err != nil || len(h.Damaged) > 0 {
		return err
	}
	if err := SongsKept(tx, &h.Songs); err != nil {
		return h.orDamaged(err)
	}
	rows, err := BrokenRows(tx)
	if err != nil {
		return h.orDamaged(err)
	}
	h.Damaged = append(h.Damaged, rows...)
	should, err := derive(tx, func(k AnswerRow) {
		if fault := k.Fault(); fault != "" {
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
	has, err := LoadDerived(tx, AllWeeks(0))
	if err != nil && !errors.Is(err, ErrJunk) {
		return h.orDamaged(err)
	}
	h.Stale = err != nil || !has.Same(should)
	return nil
}

// orDamaged counts an error as damage if that is what it is: SQLite met a page that cannot be, or a row does
// not read as what it should.
func (h *Health) orDamaged(err error) error {
	says := "a row of it cannot be read"
	switch {
	case err == nil:
		return nil
	case IsOfSQLite(err):
		if err = Plain(err); !errors.Is(err, progress.ErrDamaged) {
			return err
		}
		says = "a page of it cannot be read"
	case errors.Is(err, progress.ErrDamaged):
		says = strings.TrimPrefix(err.Error(), progress.ErrDamaged.Error()+": ")
	}
	h.Damaged = append(h.Damaged, progress.Tidy(says))
	return nil
}

// Err returns what is damaged as an error of one line, or nil.
func (h Health) Err() error {
	switch n := len(h.Damaged); n {
	case 0:
		return nil
	case 1:
		return progress.Damaged("%s", h.Damaged[0])
	default:
		return progress.Damaged("%s, and %d more", h.Damaged[0], n-1)
	}
}
