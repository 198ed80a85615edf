package progress

import (
	"crypto/rand"
	"database/sql"
	"time"
)

// Session is one practice.
type Session struct {
	ID      string
	Began   time.Time
	Ended   time.Time     // zero if it was never closed
	Minutes time.Duration // asked for
}

// NewID returns an id that no other session and no other machine has.
func NewID() string { return rand.Text() }

// Begin keeps that a session has begun, or holds on to it as Record does.
func (f *File) Begin(s Session) error {
	return f.keepDeed(deed{do: func(tx *sql.Tx) error {
		_, err := tx.Exec("INSERT INTO sessions (id, began, minutes) VALUES (?, ?, ?) ON CONFLICT DO NOTHING", s.ID, s.Began.UnixMilli(), s.Minutes.Minutes())
		if err != nil {
			return err
		}
		return sealSessions(tx, "WHERE id = ?", s.ID)
	}})
}

// End keeps that a session has ended, or holds on to it as Record does. If there is now enough to fit the
// memory model to, that is done while the program goes on.
func (f *File) End(id string, at time.Time) error {
	err := f.keepDeed(deed{do: func(tx *sql.Tx) error {
		if _, err := tx.Exec("UPDATE sessions SET ended = ? WHERE id = ?", at.UnixMilli(), id); err != nil {
			return err
		}
		return sealSessions(tx, "WHERE id = ?", id)
	}})
	if err == nil {
		f.alongside(f.Fit)
	}
	return err
}

// Sessions returns all sessions, earliest first.
func (f *File) Sessions() ([]Session, error) {
	rows, err := f.db.Query("SELECT id, began, ended, minutes FROM sessions ORDER BY began, id")
	if err != nil {
		return nil, plain(err)
	}
	defer rows.Close()
	var all []Session
	for rows.Next() {
		var s Session
		var began int64
		var ended sql.NullInt64
		var minutes float64
		if err := rows.Scan(&s.ID, &began, &ended, &minutes); err != nil {
			return nil, plain(err)
		}
		s.Began = time.UnixMilli(began).UTC()
		s.Minutes = time.Duration(minutes * float64(time.Minute))
		if ended.Valid {
			s.Ended = time.UnixMilli(ended.Int64).UTC()
		}
		all = append(all, s)
	}
	return all, plain(rows.Err())
}
