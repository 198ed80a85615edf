package progress

import (
	"database/sql"
	"encoding/hex"
	"errors"
	"maps"
	"math"
	"slices"
	"strings"
	"time"
)

// answersIn reads all answers in the order they were given.
func answersIn(from reader, read func(kept) error) error {
	return answersWhere(from, "", nil, read)
}

func answersWhere(from reader, where string, args []any, read func(kept) error) error {
	return each(from, `SELECT answers.n, answers.id, session, a.id, a.drill, seed, at, day, question, given, expected,
			coalesce(b.id, ''), result, took, replays, hints, voice, seal, choices, import
		FROM answers JOIN items a ON a.n = item LEFT JOIN items b ON b.n = taken_for `+where+` ORDER BY answers.n`, args,
		func(row *sql.Rows) error {
			var k kept
			var id []byte
			var seed, at, took int64
			if err := row.Scan(&k.n, &id, &k.Session, &k.Item, &k.Drill, &seed, &at, &k.Day, &k.Question, &k.Given, &k.Expected,
				&k.TakenFor, &k.Result, &took, &k.Replays, &k.Hints, &k.Voice, &k.under, &k.Choices, &k.Import); err != nil {
				return err
			}
			if copy(k.ID[:], id) != len(k.ID) {
				return damaged("an answer has the id %s", hex.EncodeToString(id))
			}
			k.Seed, k.At, k.Took = uint64(seed), time.UnixMilli(at).UTC(), time.Duration(took)*time.Millisecond
			return read(k)
		})
}

// derive works out from the first answer on what the derived tables should hold, and shows each answer to see.
func derive(from reader, see func(kept)) (*derived, error) {
	var runs runs
	d, err := deriveWith(from, doubts{}, func(k kept) {
		see(k)
		runs.add(k.n, k.At)
	})
	if doubted := doubtsOf(runs); err == nil && len(doubted.spans) > 0 {
		return deriveWith(from, doubted, func(kept) {})
	}
	return d, err
}

// deriveWith works out what follows from the answers where these are doubted.
func deriveWith(from reader, doubted doubts, see func(kept)) (*derived, error) {
	d := newDerived(DefaultWeights)
	if err := d.loadWeights(from); err != nil {
		return nil, err
	}
	return d, answersIn(from, func(k kept) error {
		see(k)
		if doubted.of(k.n, k.At) {
			d.doubt(k.n, k.Answer)
		} else {
			d.add(k.Answer, k.Day)
		}
		return nil
	})
}

// rebuild makes the derived tables again.
func rebuild(tx *sql.Tx) error {
	d, err := derive(tx, func(kept) {})
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
	if _, err := tx.Exec("DELETE FROM memory; DELETE FROM weeks; DELETE FROM mistakes; DELETE FROM pace; DELETE FROM doubts"); err != nil {
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
	Misfiled []string // items under a drill they do not belong to; the next Open puts that right
	Stale    bool     // the derived tables do not follow from the answers; Rebuild mends that
}

// Check proves the file: that SQLite finds it whole, that every answer can be read and says what was
// written, and that the derived tables are what the answers make them. It takes some seconds for a million
// answers. What Open finds by itself is found by Check as well.
func (f *File) Check() (Health, error) {
	if f.health != nil {
		return *f.health, nil
	}
	var h Health
	err := f.read(h.check)
	return h, err
}

// pages proves that SQLite finds the file whole, whatever the version of its schema, and counts what it holds.
func (h *Health) pages(tx *sql.Tx) error {
	say := func(row *sql.Rows) error {
		var line string
		err := row.Scan(&line)
		if line != "ok" {
			h.Damaged = append(h.Damaged, tidy(line))
		}
		return err
	}
	if err := each(tx, "PRAGMA integrity_check", nil, say); err != nil {
		return h.orDamaged(err)
	}
	if err := each(tx, `SELECT "table" || ' speaks of an item that is not there' FROM pragma_foreign_key_check`, nil, say); err != nil {
		return h.orDamaged(err)
	}
	return h.orDamaged(tx.QueryRow("SELECT (SELECT count(*) FROM answers), (SELECT count(*) FROM sessions), (SELECT count(*) FROM items)").
		Scan(&h.Answers, &h.Sessions, &h.Items))
}

func (h *Health) check(tx *sql.Tx) error {
	if err := h.pages(tx); err != nil || len(h.Damaged) > 0 {
		return err
	}
	rows, err := brokenRows(tx)
	if err != nil {
		return h.orDamaged(err)
	}
	h.Damaged = append(h.Damaged, rows...)
	should, err := derive(tx, func(k kept) {
		if fault := k.fault(); fault != "" {
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
	has, err := loadFrom(tx, allWeeks(0))
	if err != nil && !errors.Is(err, errJunk) {
		return h.orDamaged(err)
	}
	h.Stale = err != nil || !has.same(should)
	return nil
}

// orDamaged counts an error as damage if that is what it is: SQLite met a page that cannot be, or a row does
// not read as what it should.
func (h *Health) orDamaged(err error) error {
	says := "a row of it cannot be read"
	switch {
	case err == nil:
		return nil
	case isOfSQLite(err):
		if err = plain(err); !errors.Is(err, ErrDamaged) {
			return err
		}
		says = "a page of it cannot be read"
	case errors.Is(err, ErrDamaged):
		says = strings.TrimPrefix(err.Error(), ErrDamaged.Error()+": ")
	}
	h.Damaged = append(h.Damaged, tidy(says))
	return nil
}

// same reports whether two derivations agree, but for what another processor may round otherwise.
func (d *derived) same(e *derived) bool {
	return slices.Equal(d.doubted, e.doubted) &&
		maps.EqualFunc(d.weeks, e.weeks, func(a, b Tally) bool { return a == b }) &&
		maps.EqualFunc(d.mistakes, e.mistakes, maps.Equal) &&
		maps.EqualFunc(d.pace, e.pace, func(a, b pace) bool { return list(a.Took) == list(b.Took) && list(a.Cycle) == list(b.Cycle) }) &&
		maps.EqualFunc(d.memory, e.memory, func(a, b Memory) bool {
			near := math.Abs(a.Stability-b.Stability) <= 1e-9*b.Stability && math.Abs(a.Difficulty-b.Difficulty) <= 1e-9
			a.Trace = b.Trace
			return near && a == b
		})
}
