package progress

import (
	"database/sql"
	"encoding/json"
	"errors"
	"time"
)

// loadAround reads that part of what is derived which one more answer can change.
func loadAround(tx *sql.Tx, k kept) (*derived, error) {
	d := newDerived(DefaultWeights)
	return d, junk(errors.Join(
		loadWeights(tx, d),
		loadMemory(tx, d, "WHERE id = ?", k.Item),
		loadWeeks(tx, d, "WHERE a.id = ? AND week = ?", k.Item, k.Day.week()),
		loadMistakes(tx, d, "WHERE a.id = ? AND b.id = ? AND week = ?", k.Item, k.TakenFor, k.Day.week()),
		loadPace(tx, d, "WHERE drill = ?", k.Drill),
		loadLast(tx, d),
	))
}

// loadFrom reads all that a planner or a report needs: everything but the counts of weeks before one.
func loadFrom(from reader, week int) (*derived, error) {
	d := newDerived(DefaultWeights)
	return d, junk(errors.Join(
		loadWeights(from, d),
		loadMemory(from, d, ""),
		loadWeeks(from, d, "WHERE week >= ?", week),
		loadMistakes(from, d, "WHERE week >= ?", week),
		loadPace(from, d, ""),
		loadDoubted(from, d),
		loadLast(from, d),
	))
}

// loadWeights reads the student's own weights, if there are any that make sense.
func loadWeights(from reader, d *derived) error {
	return each(from, "SELECT weights FROM fit", nil, func(row *sql.Rows) error {
		var text string
		var w Weights
		err := row.Scan(&text)
		if json.Unmarshal([]byte(text), &w) == nil && w.sensible() {
			d.weights = w
		}
		return err
	})
}

func loadMemory(from reader, d *derived, where string, args ...any) error {
	return each(from, "SELECT id, stability, difficulty, day, due, asked, held, run, luck FROM memory JOIN items ON n = item "+where, args,
		func(row *sql.Rows) error {
			var id string
			var m Memory
			err := row.Scan(&id, &m.Stability, &m.Difficulty, &m.Day, &m.Due, &m.Asked, &m.Held, &m.Run, &m.Luck)
			d.memory[id] = m
			return err
		})
}

func loadWeeks(from reader, d *derived, where string, args ...any) error {
	return each(from, "SELECT a.id, week, asked, held, guessed FROM weeks JOIN items a ON a.n = item "+where, args,
		func(row *sql.Rows) error {
			var k weekOf
			var t Tally
			err := row.Scan(&k.item, &k.week, &t.Asked, &t.Held, &t.Guessed)
			d.weeks[k] = t
			return err
		})
}

func loadMistakes(from reader, d *derived, where string, args ...any) error {
	return each(from, "SELECT a.id, b.id, week, times FROM mistakes JOIN items a ON a.n = item JOIN items b ON b.n = taken_for "+where, args,
		func(row *sql.Rows) error {
			var item string
			var m mistake
			var times int
			err := row.Scan(&item, &m.takenFor, &m.week, &times)
			d.mistake(item, m, times)
			return err
		})
}

func loadPace(from reader, d *derived, where string, args ...any) error {
	return each(from, "SELECT drill, took, cycle FROM pace "+where, args,
		func(row *sql.Rows) error {
			var drill, took, cycle string
			var p pace
			err := errors.Join(row.Scan(&drill, &took, &cycle), json.Unmarshal([]byte(took), &p.Took), json.Unmarshal([]byte(cycle), &p.Cycle))
			d.pace[drill] = p
			return err
		})
}

func loadDoubted(from reader, d *derived) error {
	return each(from, "SELECT answer FROM doubts ORDER BY answer", nil, func(row *sql.Rows) error {
		var n int64
		err := row.Scan(&n)
		d.doubted = append(d.doubted, n)
		return err
	})
}

func loadLast(from reader, d *derived) error {
	var n, at int64
	var since bool
	err := from.QueryRow("SELECT n, session, at FROM answers WHERE n NOT IN (SELECT answer FROM doubts) ORDER BY n DESC LIMIT 1").Scan(&n, &d.lastIn, &at)
	if errors.Is(err, sql.ErrNoRows) {
		return nil
	} else if err != nil {
		return err
	}
	err = from.QueryRow("SELECT EXISTS (SELECT 1 FROM answers WHERE n > ? AND session = ?)", n, d.lastIn).Scan(&since)
	if !since {
		d.lastAt = time.UnixMilli(at)
	}
	return err
}

// storeDerived writes all that is in d over what the tables had for the same items, weeks and drills.
func storeDerived(tx *sql.Tx, d *derived, names numbers) error {
	for id, m := range d.memory {
		if _, err := tx.Exec("REPLACE INTO memory VALUES (?,?,?,?,?,?,?,?,?)",
			names[id], m.Stability, m.Difficulty, m.Day, m.Due, m.Asked, m.Held, m.Run, m.Luck); err != nil {
			return err
		}
	}
	for k, t := range d.weeks {
		if _, err := tx.Exec("REPLACE INTO weeks VALUES (?,?,?,?,?)", names[k.item], k.week, t.Asked, t.Held, t.Guessed); err != nil {
			return err
		}
	}
	for item, taken := range d.mistakes {
		for m, times := range taken {
			if _, err := tx.Exec("REPLACE INTO mistakes VALUES (?,?,?,?)", names[item], names[m.takenFor], m.week, times); err != nil {
				return err
			}
		}
	}
	for drill, p := range d.pace {
		took, cycle := list(p.Took), list(p.Cycle)
		if _, err := tx.Exec("REPLACE INTO pace VALUES (?,?,?)", drill, took, cycle); err != nil {
			return err
		}
	}
	for _, n := range d.doubted {
		if _, err := tx.Exec("REPLACE INTO doubts VALUES (?)", n); err != nil {
			return err
		}
	}
	return nil
}

// list writes milliseconds as a JSON list.
func list(ms []int64) string {
	if ms == nil {
		return "[]"
	}
	text, _ := json.Marshal(ms) // a list of integers always can be
	return string(text)
}
