package tables

import (
	"database/sql"
	"encoding/json"
	"errors"
	"time"

	"sparetone/progress/memory"
)

// loadAround reads that part of what is derived which one more answer can change.
func loadAround(tx *sql.Tx, k AnswerRow) (*memory.Derived, error) {
	d := memory.NewDerived(memory.StartWeights)
	return d, junk(errors.Join(
		loadWeights(tx, d),
		loadMemory(tx, d, "WHERE id = ?", k.Item),
		loadWeeks(tx, d, "WHERE a.id = ? AND week = ?", k.Item, k.Day.Week()),
		loadMistakes(tx, d, "WHERE a.id = ? AND b.id = ? AND week = ?", k.Item, k.TakenFor, k.Day.Week()),
		loadPace(tx, d, "WHERE drill = ?", k.Drill),
		loadForetold(tx, d),
		loadLast(tx, d),
	))
}

// LoadDerived reads all that a planner or a report needs: everything but the counts of weeks before one.
func LoadDerived(from Reader, week int) (*memory.Derived, error) {
	d := memory.NewDerived(memory.StartWeights)
	return d, junk(errors.Join(
		loadWeights(from, d),
		loadMemory(from, d, ""),
		loadWeeks(from, d, "WHERE week >= ?", week),
		loadMistakes(from, d, "WHERE week >= ?", week),
		loadPace(from, d, ""),
		loadForetold(from, d),
		loadDoubted(from, d),
		loadLast(from, d),
	))
}

// loadWeights reads the student's own weights, if there are any that make sense.
func loadWeights(from Reader, d *memory.Derived) error {
	return Each(from, "SELECT weights FROM fit", nil, func(row *sql.Rows) error {
		var text string
		var w memory.Weights
		err := row.Scan(&text)
		if json.Unmarshal([]byte(text), &w) == nil && w.Sensible() {
			d.Weights = w
		}
		return err
	})
}

func loadMemory(from Reader, d *memory.Derived, where string, args ...any) error {
	return Each(from, "SELECT id, stability, difficulty, day, due, asked, held, run, luck, guess, ear, kept, added, unsure, favour, rung, told FROM memory JOIN items ON n = item "+where, args,
		func(row *sql.Rows) error {
			var id string
			var m memory.Memory
			err := row.Scan(&id, &m.Stability, &m.Difficulty, &m.Day, &m.Due, &m.Asked, &m.Right, &m.Run, &m.Luck,
				&m.Guess, &m.Ear, &m.Kept, &m.Added, &m.Unsure, &m.Favour, &m.Rung, &m.OnRung)
			d.Memory[id] = m
			return err
		})
}

func loadWeeks(from Reader, d *memory.Derived, where string, args ...any) error {
	return Each(from, "SELECT a.id, week, asked, held, guessed FROM weeks JOIN items a ON a.n = item "+where, args,
		func(row *sql.Rows) error {
			var k memory.WeekOf
			var t memory.Tally
			err := row.Scan(&k.Item, &k.Week, &t.Asked, &t.Right, &t.Guessed)
			d.Weeks[k] = t
			return err
		})
}

func loadMistakes(from Reader, d *memory.Derived, where string, args ...any) error {
	return Each(from, "SELECT a.id, b.id, week, times FROM mistakes JOIN items a ON a.n = item JOIN items b ON b.n = taken_for "+where, args,
		func(row *sql.Rows) error {
			var item string
			var m memory.Mistake
			var times int
			err := row.Scan(&item, &m.TakenFor, &m.Week, &times)
			d.AddMistake(item, m, times)
			return err
		})
}

func loadPace(from Reader, d *memory.Derived, where string, args ...any) error {
	return Each(from, "SELECT drill, took, cycle FROM pace "+where, args,
		func(row *sql.Rows) error {
			var drill, took, cycle string
			var p memory.Pace
			err := errors.Join(row.Scan(&drill, &took, &cycle), json.Unmarshal([]byte(took), &p.Took), json.Unmarshal([]byte(cycle), &p.Cycle))
			d.Pace[drill] = p
			return err
		})
}

func loadForetold(from Reader, d *memory.Derived) error {
	return Each(from, "SELECT ear, tenth, asked, held, sum FROM foretold", nil, func(row *sql.Rows) error {
		var ear bool
		var tenth int
		var f memory.Foretold
		err := row.Scan(&ear, &tenth, &f.Asked, &f.Right, &f.Sum)
		c := &d.ByEye
		if ear {
			c = &d.ByEar
		}
		if tenth < 0 || tenth >= len(c) {
			return errors.Join(err, ErrJunk)
		}
		c[tenth] = f
		return err
	})
}

func loadDoubted(from Reader, d *memory.Derived) error {
	return Each(from, "SELECT answer FROM doubts ORDER BY answer", nil, func(row *sql.Rows) error {
		var n int64
		err := row.Scan(&n)
		d.Doubted = append(d.Doubted, n)
		return err
	})
}

func loadLast(from Reader, d *memory.Derived) error {
	var n, at int64
	var since bool
	err := from.QueryRow("SELECT n, session, at FROM answers WHERE n NOT IN (SELECT answer FROM doubts) ORDER BY n DESC LIMIT 1").Scan(&n, &d.LastIn, &at)
	if errors.Is(err, sql.ErrNoRows) {
		return nil
	} else if err != nil {
		return err
	}
	err = from.QueryRow("SELECT EXISTS (SELECT 1 FROM answers WHERE n > ? AND session = ?)", n, d.LastIn).Scan(&since)
	if !since {
		d.LastAt = time.UnixMilli(at)
	}
	return err
}

// StoreDerived writes all that is in d over what the tables had for the same items, weeks and drills.
func StoreDerived(tx *sql.Tx, d *memory.Derived, names ItemNumbers) error {
	for id, m := range d.Memory {
		if _, err := tx.Exec("REPLACE INTO memory VALUES (?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?)",
			names[id], m.Stability, m.Difficulty, m.Day, m.Due, m.Asked, m.Right, m.Run, m.Luck,
			m.Guess, m.Ear, m.Kept, m.Added, m.Unsure, m.Favour, m.Rung, m.OnRung); err != nil {
			return err
		}
	}
	for k, t := range d.Weeks {
		if _, err := tx.Exec("REPLACE INTO weeks VALUES (?,?,?,?,?)", names[k.Item], k.Week, t.Asked, t.Right, t.Guessed); err != nil {
			return err
		}
	}
	for item, taken := range d.Mistakes {
		for m, times := range taken {
			if _, err := tx.Exec("REPLACE INTO mistakes VALUES (?,?,?,?)", names[item], names[m.TakenFor], m.Week, times); err != nil {
				return err
			}
		}
	}
	for drill, p := range d.Pace {
		took, cycle := list(p.Took), list(p.Cycle)
		if _, err := tx.Exec("REPLACE INTO pace VALUES (?,?,?)", drill, took, cycle); err != nil {
			return err
		}
	}
	for _, c := range []struct {
		ear bool
		of  memory.Calibration
	}{{false, d.ByEye}, {true, d.ByEar}} {
		for tenth, f := range c.of {
			if f.Asked == 0 {
				continue
			}
			if _, err := tx.Exec("REPLACE INTO foretold VALUES (?,?,?,?,?)", c.ear, tenth, f.Asked, f.Right, f.Sum); err != nil {
				return err
			}
		}
	}
	for _, n := range d.Doubted {
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
