package progress

import (
	"database/sql"
	"errors"
	"time"
)

// Clock judges the machine's clock by the answers.
func (f *File) Clock() (c Clock, err error) {
	err = f.read(func(tx *sql.Tx) error {
		p, err := presentIn(tx, f.now())
		c = Clock{p.now(), p.doubted, p.says(), p.asks()}
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
		p, err := presentIn(tx, now)
		known = !p.doubted
		return err
	})
	return due.Sub(now), known && err == nil, err
}

// ComesBack returns when an item is due again, and false if it was never asked.
func (f *File) ComesBack(item string) (due time.Time, known bool, err error) {
	var day Day
	err = f.read(func(tx *sql.Tx) error {
		p, err := presentIn(tx, f.now())
		if err != nil {
			return err
		}
		if p.anew {
			d, err := deriveWith(tx, p.doubts, func(kept) {})
			if err == nil {
				day, known = d.memory[item].Due, d.memory[item].Asked > 0
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
		p, err := presentIn(tx, f.now())
		if err != nil || !p.anew {
			return errors.Join(err, tx.QueryRow("SELECT count(*) FROM doubts").Scan(&n))
		}
		return each(tx, "SELECT n, at FROM answers", nil, func(row *sql.Rows) error {
			var no, at int64
			err := row.Scan(&no, &at)
			if p.doubts.of(no, time.UnixMilli(at)) {
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
