package tables

import (
	"database/sql"
	"time"

	"sparetone/progress"
	"sparetone/progress/clock"
)

// SessionRow is a session as the file has it.
type SessionRow struct {
	Id      string
	Began   int64
	Ended   sql.NullInt64
	Minutes float64
	Seal    sql.NullInt64
	By      string // the import it came with; empty if it was begun here
}

func (s SessionRow) Sum() int64 { return SealOf(s.Id, s.Began, s.Ended.Int64, s.Minutes, s.By) }

func SessionRows(from Reader, where string, args []any, read func(SessionRow) error) error {
	return Each(from, "SELECT id, began, ended, minutes, seal, import FROM sessions "+where, args, func(row *sql.Rows) error {
		var s SessionRow
		if err := row.Scan(&s.Id, &s.Began, &s.Ended, &s.Minutes, &s.Seal, &s.By); err != nil {
			return err
		}
		return read(s)
	})
}

// SealSessions seals sessions as they now are; whoever writes one seals it.
func SealSessions(tx *sql.Tx, where string, args ...any) error {
	sums := map[string]int64{}
	err := SessionRows(tx, where, args, func(s SessionRow) error { sums[s.Id] = s.Sum(); return nil })
	if err != nil {
		return err
	}
	for id, sum := range sums {
		if _, err := tx.Exec("UPDATE sessions SET seal = ? WHERE id = ?", sum, id); err != nil {
			return err
		}
	}
	return nil
}

// Sessions reads the sessions of a file, earliest first, as they were kept.
func Sessions(from Reader) (all []progress.Session, err error) {
	err = SessionRows(from, "ORDER BY began, id", nil, func(row SessionRow) error {
		s := progress.Session{ID: row.Id, Began: whenKept(row.Began), Minutes: time.Duration(row.Minutes * float64(time.Minute))}
		if row.Ended.Valid {
			s.Ended = whenKept(row.Ended.Int64)
		}
		all = append(all, s)
		return nil
	})
	return all, err
}

// whenKept returns a time that was kept in milliseconds.
func whenKept(ms int64) time.Time { return clock.Writable(time.UnixMilli(ms).UTC()) }

// MarkDoubted marks the sessions that are doubted, and puts right when others began.
func MarkDoubted(from Reader, d clock.Doubts, all []progress.Session) error {
	index := map[string]int{}
	wrong := len(d.Spans) > 0
	for i, s := range all {
		index[s.ID] = i
		all[i].Doubted = !clock.Dated(s.Began)
		wrong = wrong || all[i].Doubted
	}
	if !wrong {
		return nil
	}
	met := map[int]bool{}
	return Each(from, "SELECT n, session, at FROM answers ORDER BY n", nil, func(row *sql.Rows) error {
		var n, at int64
		var id string
		if err := row.Scan(&n, &id, &at); err != nil {
			return err
		}
		i, known := index[id]
		if !known {
			return nil
		}
		s, doubted := &all[i], d.Of(n, time.UnixMilli(at))
		s.Doubted = s.Doubted || doubted && !met[i]
		met[i] = true
		if s.Doubted && !doubted {
			s.Began, s.Doubted = whenKept(at), false
		}
		return nil
	})
}
