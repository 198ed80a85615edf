package store

import (
	"cmp"
	"database/sql"
	"slices"
	"strings"
	"time"

	"sparetone/progress"
	"sparetone/progress/clock"
	"sparetone/progress/tables"
)

// Begin keeps that a session has begun, or holds on to it as Record does.
func (f *File) Begin(s progress.Session) error {
	return f.keepDeed(deed{do: func(tx *sql.Tx) error {
		_, err := tx.Exec("INSERT INTO sessions (id, began, minutes) VALUES (?, ?, ?) ON CONFLICT DO NOTHING", s.ID, clock.Writable(s.Began).UnixMilli(), s.Minutes.Minutes())
		if err != nil {
			return err
		}
		return tables.SealSessions(tx, "WHERE id = ?", s.ID)
	}})
}

// End keeps that a session has ended, or holds on to it as Record does. If there is now enough to fit the
// memory model to, that is done while the program goes on.
func (f *File) End(id string, at time.Time) error {
	err := f.keepDeed(deed{do: func(tx *sql.Tx) error {
		if _, err := tx.Exec("UPDATE sessions SET ended = ? WHERE id = ?", clock.Writable(at).UnixMilli(), id); err != nil {
			return err
		}
		return tables.SealSessions(tx, "WHERE id = ?", id)
	}})
	if err == nil {
		f.alongside(f.Fit)
	}
	return err
}

// Sessions returns all sessions, earliest first. Where the clock was wrong when a session began, and it has answers whose
// time is believed, it began with the first of these.
func (f *File) Sessions() (all []progress.Session, err error) {
	err = f.read(func(tx *sql.Tx) error {
		if all, err = tables.Sessions(tx); err != nil {
			return err
		}
		p, err := tables.Present(tx, f.now())
		if err != nil {
			return err
		}
		if err := tables.MarkDoubted(tx, p.Doubts, all); err != nil {
			return err
		}
		slices.SortFunc(all, func(a, b progress.Session) int { return cmp.Or(a.Began.Compare(b.Began), strings.Compare(a.ID, b.ID)) })
		return nil
	})
	return all, err
}
