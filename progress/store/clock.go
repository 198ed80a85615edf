package store

import (
	"database/sql"
	"errors"
	"time"

	"sparetone/progress"
	"sparetone/progress/tables"
)

// Clock judges the machine's clock by the answers.
func (f *File) Clock() (c Clock, err error) {
	err = f.read(func(tx *sql.Tx) error {
		p, err := tables.Present(tx, f.now())
		c = Clock{p.Now(), p.Doubted, p.Says(), p.Asks()}
		return err
	})
	return c, err
}

// BackIn returns how long it is from now until an item comes back, and false if it was never asked, or if the clock is doubted: who
// knows how long that is then.
func (f *File) BackIn(item string, now time.Time) (left time.Duration, known bool, err error) {
	due, known, err := f.ComesBack(item)
	if err != nil || !known {
		return 0, false, err
	}
	err = f.read(func(tx *sql.Tx) error {
		p, err := tables.Present(tx, now)
		known = !p.Doubted
		return err
	})
	return due.Sub(now), known && err == nil, err
}

// ComesBack returns when an item is due again, and false if it was never asked.
func (f *File) ComesBack(item string) (due time.Time, known bool, err error) {
	var day progress.Day
	err = f.read(func(tx *sql.Tx) error {
		p, err := tables.Present(tx, f.now())
		if err != nil {
			return err
		}
		if p.Anew {
			d, err := tables.DeriveWith(tx, p.Doubts, func(tables.AnswerRow) {})
			if err == nil {
				day, known = d.Memory[item].Due, d.Memory[item].Asked > 0
			}
			return err
		}
		err = tx.QueryRow("SELECT due FROM memory JOIN items ON n = item WHERE id = ?", item).Scan(&day)
		if errors.Is(err, sql.ErrNoRows) {
			return nil
		}
		known = err == nil
		return err
	})
	return day.Begins(f.now().Location()), known && err == nil, err
}

// Doubted counts the answers whose time is doubted: they are kept, but do not count.
func (f *File) Doubted() (n int, err error) {
	err = f.read(func(tx *sql.Tx) error {
		p, err := tables.Present(tx, f.now())
		if err != nil || !p.Anew {
			return errors.Join(err, tx.QueryRow("SELECT count(*) FROM doubts").Scan(&n))
		}
		return tables.Each(tx, "SELECT n, at FROM answers", nil, func(row *sql.Rows) error {
			var no, at int64
			err := row.Scan(&no, &at)
			if p.Doubts.Of(no, time.UnixMilli(at)) {
				n++
			}
			return err
		})
	})
	return n, err
}

// Clock is what a file makes of the machine's clock.
type Clock struct {
	Now     time.Time // what the clock says; where it is doubted, when the last answer was given that is believed
	Doubted bool      // the answers show that it cannot be right, or it was never set; what is answered does not count
	Says    string    // in a line, that it contradicts the answers and which of the two is believed; "" if it does not
	Asks    string    // in a line, whether it is right: it is more than a year ahead of the last answer; "" if it is not
}
