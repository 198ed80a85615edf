package progress

import (
	"database/sql"
	"time"
)

// sessionRow is a session as the file has it.
type sessionRow struct {
	id      string
	began   int64
	ended   sql.NullInt64
	minutes float64
	seal    sql.NullInt64
	by      string // the import it came with; empty if it was begun here
}

func (s sessionRow) sum() int64 { return sealOf(s.id, s.began, s.ended.Int64, s.minutes, s.by) }

func sessionRows(from reader, where string, args []any, read func(sessionRow) error) error {
	return each(from, "SELECT id, began, ended, minutes, seal, import FROM sessions "+where, args, func(row *sql.Rows) error {
		var s sessionRow
		if err := row.Scan(&s.id, &s.began, &s.ended, &s.minutes, &s.seal, &s.by); err != nil {
			return err
		}
		return read(s)
	})
}

// sealSessions seals sessions as they now are; whoever writes one seals it.
func sealSessions(tx *sql.Tx, where string, args ...any) error {
	sums := map[string]int64{}
	err := sessionRows(tx, where, args, func(s sessionRow) error { sums[s.id] = s.sum(); return nil })
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

// markDoubted marks the sessions that are doubted, and puts right when others began.
func markDoubted(from reader, d doubts, all []Session) error {
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
