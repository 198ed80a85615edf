package progress

import (
	"cmp"
	"crypto/rand"
	"database/sql"
	"slices"
	"strings"
	"time"
)

// Session is one practice.
type Session struct {
	ID      string
	Began   time.Time
	Ended   time.Time     // zero if it was never closed
	Minutes time.Duration // asked for
	Doubted bool          // when it was is not known: the clock was wrong
}

// NewID returns an id that no other session and no other machine has.
func NewID() string { return rand.Text() }

// Begin keeps that a session has begun, or holds on to it as Record does.
func (f *File) Begin(s Session) error {
	return f.keepDeed(deed{do: func(tx *sql.Tx) error {
		_, err := tx.Exec("INSERT INTO sessions (id, began, minutes) VALUES (?, ?, ?) ON CONFLICT DO NOTHING", s.ID, written(s.Began).UnixMilli(), s.Minutes.Minutes())
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
		if _, err := tx.Exec("UPDATE sessions SET ended = ? WHERE id = ?", written(at).UnixMilli(), id); err != nil {
			return err
		}
		return sealSessions(tx, "WHERE id = ?", id)
	}})
	if err == nil {
		f.alongside(f.Fit)
	}
	return err
}

// Sessions returns all sessions, earliest first. Where the clock was wrong when a session began, and it has answers whose
// time is believed, it began with the first of these.
func (f *File) Sessions() (all []Session, err error) {
	err = f.read(func(tx *sql.Tx) error {
		if all, err = sessionsIn(tx); err != nil {
			return err
		}
		p, err := presentIn(tx, f.now())
		if err != nil {
			return err
		}
		if err := p.doubts.ofSessions(tx, all); err != nil {
			return err
		}
		slices.SortFunc(all, func(a, b Session) int { return cmp.Or(a.Began.Compare(b.Began), strings.Compare(a.ID, b.ID)) })
		return nil
	})
	return all, err
}

// sessionsIn reads the sessions of a file, earliest first, as they were kept.
func sessionsIn(from reader) (all []Session, err error) {
	err = sessionRows(from, "ORDER BY began, id", nil, func(row sessionRow) error {
		s := Session{ID: row.id, Began: whenKept(row.began), Minutes: time.Duration(row.minutes * float64(time.Minute))}
		if row.ended.Valid {
			s.Ended = whenKept(row.ended.Int64)
		}
		all = append(all, s)
		return nil
	})
	return all, err
}

// whenKept returns a time that was kept in milliseconds.
func whenKept(ms int64) time.Time { return written(time.UnixMilli(ms).UTC()) }

// ofSessions marks the sessions that are doubted, and puts right when others began.
func (d doubts) ofSessions(from reader, all []Session) error {
	place := map[string]int{}
	wrong := len(d.spans) > 0
	for i, s := range all {
		place[s.ID] = i
		all[i].Doubted = !dated(s.Began)
		wrong = wrong || all[i].Doubted
	}
	if !wrong {
		return nil
	}
	met := map[int]bool{}
	return each(from, "SELECT n, session, at FROM answers ORDER BY n", nil, func(row *sql.Rows) error {
		var n, at int64
		var id string
		if err := row.Scan(&n, &id, &at); err != nil {
			return err
		}
		i, known := place[id]
		if !known {
			return nil
		}
		s, doubted := &all[i], d.of(n, time.UnixMilli(at))
		s.Doubted = s.Doubted || doubted && !met[i]
		met[i] = true
		if s.Doubted && !doubted {
			s.Began, s.Doubted = whenKept(at), false
		}
		return nil
	})
}
