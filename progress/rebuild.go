package progress

import (
	"database/sql"
	"encoding/hex"
	"fmt"
	"maps"
	"math"
	"time"
)

// answersIn reads all answers in the order they were given.
func answersIn(from reader, read func(kept) error) error {
	return each(from, `SELECT answers.id, session, a.id, a.drill, seed, at, day, question, given, expected,
			coalesce(b.id, ''), result, took, replays, hints, voice
		FROM answers JOIN items a ON a.n = item LEFT JOIN items b ON b.n = taken_for ORDER BY answers.n`, nil,
		func(row *sql.Rows) error {
			var k kept
			var id []byte
			var seed, at, took int64
			if err := row.Scan(&id, &k.Session, &k.Item, &k.Drill, &seed, &at, &k.Day, &k.Question, &k.Given, &k.Expected,
				&k.TakenFor, &k.Result, &took, &k.Replays, &k.Hints, &k.Voice); err != nil {
				return err
			}
			if copy(k.ID[:], id) != len(k.ID) {
				return fmt.Errorf("an answer has the id %s", hex.EncodeToString(id))
			}
			k.Seed, k.At, k.Took = uint64(seed), time.UnixMilli(at).UTC(), time.Duration(took)*time.Millisecond
			return read(k)
		})
}

// derive works out from the first answer on what the derived tables should hold.
func derive(from reader) (*derived, error) {
	d := newDerived(DefaultWeights)
	if err := d.loadWeights(from); err != nil {
		return nil, err
	}
	return d, answersIn(from, func(k kept) error {
		d.add(k.Answer, k.Day)
		return nil
	})
}

// rebuild makes the derived tables again.
func rebuild(tx *sql.Tx) error {
	d, err := derive(tx)
	if err != nil {
		return err
	}
	names := numbers{}
	err = each(tx, "SELECT id, n FROM items", nil, func(row *sql.Rows) error {
		var id string
		var n int64
		err := row.Scan(&id, &n)
		names[id] = n
		return err
	})
	if err != nil {
		return err
	}
	if _, err := tx.Exec("DELETE FROM memory; DELETE FROM weeks; DELETE FROM mistakes; DELETE FROM pace"); err != nil {
		return err
	}
	return d.store(tx, names)
}

// Rebuild makes again all that is derived from the answers.
func (f *File) Rebuild() error { return f.change(rebuild) }

// Health is what Check found.
type Health struct {
	Answers  int
	Sessions int
	Items    int
	Damaged  []string // what is wrong with the file itself, a line each; empty if it is sound
	Stale    bool     // the derived tables do not follow from the answers; Rebuild mends that
}

// Check proves the file: that SQLite finds it whole, that every answer can be read, and that the
// derived tables are what the answers make them. It takes some seconds for a million answers.
func (f *File) Check() (Health, error) {
	var h Health
	err := f.read(h.check)
	return h, err
}

// mostGlanced is the size in bytes of the largest file that is worth a glance: some 200,000 answers, which take half
// a second. A million take more than one.
const mostGlanced = 32 << 20

// Glance reports whether a file that is not too large is whole, which costs about as much as reading what is derived.
// Check finds more.
func (f *File) Glance() (whole bool, err error) {
	whole = true
	err = f.read(func(tx *sql.Tx) error {
		var pages, size int64
		if err := tx.QueryRow("SELECT page_count, page_size FROM pragma_page_count, pragma_page_size").Scan(&pages, &size); err != nil || pages*size > mostGlanced {
			return err
		}
		var says string
		err := tx.QueryRow("PRAGMA quick_check(1)").Scan(&says)
		whole = says == "ok"
		return err
	})
	return whole, err
}

func (h *Health) check(tx *sql.Tx) error {
	say := func(row *sql.Rows) error {
		var line string
		err := row.Scan(&line)
		if line != "ok" {
			h.Damaged = append(h.Damaged, tidy(line))
		}
		return err
	}
	if err := each(tx, "PRAGMA integrity_check", nil, say); err != nil {
		return err
	}
	if err := each(tx, `SELECT "table" || ' speaks of an item that is not there' FROM pragma_foreign_key_check`, nil, say); err != nil {
		return err
	}
	err := tx.QueryRow("SELECT (SELECT count(*) FROM answers), (SELECT count(*) FROM sessions), (SELECT count(*) FROM items)").
		Scan(&h.Answers, &h.Sessions, &h.Items)
	if err != nil || len(h.Damaged) > 0 {
		return err
	}
	has, err := loadFrom(tx, math.MinInt32)
	if err != nil {
		return err
	}
	should, err := derive(tx)
	if err != nil {
		return err
	}
	h.Stale = !has.same(should)
	return nil
}

// same reports whether two derivations agree, but for what another processor may round otherwise.
func (d *derived) same(e *derived) bool {
	return maps.EqualFunc(d.weeks, e.weeks, func(a, b Tally) bool { return a == b }) &&
		maps.EqualFunc(d.mistakes, e.mistakes, maps.Equal) &&
		maps.EqualFunc(d.pace, e.pace, func(a, b pace) bool { return list(a.Took) == list(b.Took) && list(a.Cycle) == list(b.Cycle) }) &&
		maps.EqualFunc(d.memory, e.memory, func(a, b Memory) bool {
			near := math.Abs(a.Stability-b.Stability) <= 1e-9*b.Stability && math.Abs(a.Difficulty-b.Difficulty) <= 1e-9
			a.Trace = b.Trace
			return near && a == b
		})
}
