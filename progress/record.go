package progress

import (
	"crypto/rand"
	"database/sql"
	"errors"
	"strings"
	"time"
	"unicode/utf8"
)

// Record keeps an answer. It is on the disk when Record returns nil. Control characters are taken
// out of its texts, and texts are cut to a thousand bytes.
func (f *File) Record(a Answer) error {
	for _, s := range []*string{&a.Question, &a.Given, &a.Expected, &a.Voice} {
		*s = tidy(*s)
	}
	if err := a.valid(); err != nil {
		return err
	}
	k := kept{Answer: a, Day: DayOf(a.At.In(f.now().Location()))}
	rand.Read(k.ID[:])
	return f.change(func(tx *sql.Tx) error { return keep(tx, k) })
}

// kept is an answer as the file has it.
type kept struct {
	Answer
	ID  [16]byte
	Day Day
}

// tidy takes control characters out of a text and cuts it to what is kept.
func tidy(s string) string {
	s = strings.Map(func(r rune) rune {
		if control(r) {
			return -1
		}
		return r
	}, s)
	if len(s) <= longest {
		return s
	}
	s = s[:longest]
	for !utf8.ValidString(s) {
		s = s[:len(s)-1]
	}
	return s
}

// keep adds an answer after all others and brings up to date what is derived from it.
func keep(tx *sql.Tx, k kept) error {
	item, err := itemNumber(tx, k.Item, k.Drill)
	if err != nil {
		return err
	}
	var takenFor sql.NullInt64
	if k.TakenFor != "" {
		if takenFor.Int64, err = itemNumber(tx, k.TakenFor, ""); err != nil {
			return err
		}
		takenFor.Valid = true
	}
	done, err := tx.Exec("INSERT INTO answers VALUES (NULL,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?)",
		k.ID[:], k.Session, item, int64(k.Seed), k.At.UnixMilli(), int(k.Day), k.Question, k.Given, k.Expected,
		takenFor, int(k.Result), k.Took.Milliseconds(), k.Replays, k.Hints, k.Voice)
	if err != nil {
		return err
	}
	n, err := done.LastInsertId()
	if err != nil {
		return err
	}
	return derive(tx, n, item, takenFor, k)
}

// itemNumber finds or makes an item's row. An item that was first met as a mistake gets its drill
// when it is first asked.
func itemNumber(tx *sql.Tx, id, drill string) (n int64, err error) {
	err = tx.QueryRow(`INSERT INTO items (id, drill) VALUES (?, ?)
		ON CONFLICT DO UPDATE SET drill = iif(excluded.drill = '', drill, excluded.drill) RETURNING n`, id, drill).Scan(&n)
	return n, err
}

// derive brings the derived tables up to date after one answer.
func derive(tx *sql.Tx, n, item int64, takenFor sql.NullInt64, k kept) error {
	usual, err := usualTime(tx, k.Drill)
	if err != nil {
		return err
	}
	m, known, err := memoryOf(tx, item)
	if err != nil {
		return err
	}
	m = m.after(DefaultWeights, gradeOf(k.Answer, usual, !known), k.Result, k.Day, known)
	if _, err := tx.Exec("REPLACE INTO memory VALUES (?,?,?,?,?,?,?,?)",
		item, m.Stability, m.Difficulty, m.Day, m.Due, m.Asked, m.Held, m.Run); err != nil {
		return err
	}
	held := 0
	if k.Result == Right {
		held = 1
	}
	week := int(k.Day) / 7
	if _, err := tx.Exec(`INSERT INTO weeks VALUES (?,?,1,?)
		ON CONFLICT DO UPDATE SET asked = asked + 1, held = held + excluded.held`, item, week, held); err != nil {
		return err
	}
	if takenFor.Valid {
		if _, err := tx.Exec(`INSERT INTO mistakes VALUES (?,?,?,1)
			ON CONFLICT DO UPDATE SET times = times + 1`, item, takenFor, week); err != nil {
			return err
		}
	}
	if k.Result != Right {
		return nil
	}
	if _, err := tx.Exec("INSERT INTO pace VALUES (?,?,?)", k.Drill, n, k.Took.Milliseconds()); err != nil {
		return err
	}
	_, err = tx.Exec(`DELETE FROM pace WHERE drill = ? AND n <= (
		SELECT n FROM pace WHERE drill = ? ORDER BY n DESC LIMIT 1 OFFSET ?)`, k.Drill, k.Drill, paceKept)
	return err
}

// memoryOf reads what is remembered of an item, and whether it was ever asked.
func memoryOf(tx *sql.Tx, item int64) (m Memory, known bool, err error) {
	err = tx.QueryRow("SELECT stability, difficulty, day, due, asked, held, run FROM memory WHERE item = ?", item).
		Scan(&m.Stability, &m.Difficulty, &m.Day, &m.Due, &m.Asked, &m.Held, &m.Run)
	if errors.Is(err, sql.ErrNoRows) {
		return Memory{}, false, nil
	}
	return m, err == nil, err
}

// ComesBack returns when an item is due again, and false if it was never asked.
func (f *File) ComesBack(item string) (due time.Time, known bool, err error) {
	var day Day
	err = f.db.QueryRow("SELECT due FROM memory JOIN items ON n = item WHERE id = ?", item).Scan(&day)
	if errors.Is(err, sql.ErrNoRows) {
		return time.Time{}, false, nil
	}
	if err != nil {
		return time.Time{}, false, plain(err)
	}
	return day.Begins(f.now().Location()), true, nil
}
