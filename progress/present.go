package progress

import (
	"database/sql"
	"errors"
	"math"
	"time"
)

// present is what a file takes for now, and what follows from that for its answers. The clock is one more witness: where
// it contradicts the answers, either it is doubted or they are.
type present struct {
	clock   time.Time // what the machine's clock says
	doubts  doubts    // the answers that are doubted
	anew    bool      // others than are kept in the file
	doubted bool      // the clock is
	last    moment    // of the last answer that is believed
	ahead   moment    // of the last answer that was believed before, if others are doubted now
}

// moment is when an answer was given.
type moment struct {
	known bool
	at    time.Time
	day   Day // practice day where the student was
}

// presentIn judges what a machine's clock says by the answers of a file. It takes long only where the two contradict each
// other.
func presentIn(from reader, clock time.Time) (p present, err error) {
	p.clock = written(clock)
	if p.doubts, err = doubtsKept(from); err != nil {
		return p, err
	}
	if p.last, err = lastBelieved(from, p.doubts); err != nil {
		return p, err
	}
	switch {
	case !dated(p.clock):
		p.doubted = true
	case p.last.known && utcDay(p.clock) < utcDay(p.last.at)-slack:
		runs, err := runsIn(from)
		if err != nil {
			return p, err
		}
		now := run{math.MaxInt64 - 1, utcDay(p.clock)}
		if d := doubtsOf(append(runs, now)); d.of(now.from, p.clock) {
			p.doubted = true
		} else {
			p.doubts, p.anew, p.ahead = d, true, p.last
			p.last, err = lastBelieved(from, d)
		}
		return p, err
	}
	return p, nil
}

// lastBelieved returns when the last answer was given that is not doubted.
func lastBelieved(from reader, d doubts) (m moment, err error) {
	for i, before := len(d.spans)-1, int64(math.MaxInt64); ; i-- {
		var n, at int64
		err := from.QueryRow("SELECT n, at, day FROM answers WHERE n < ? AND at >= ? AND at < ? ORDER BY n DESC LIMIT 1",
			before, firstSet.UnixMilli(), lastTime.UnixMilli()).Scan(&n, &at, &m.day)
		if errors.Is(err, sql.ErrNoRows) {
			return moment{}, nil
		}
		m.known, m.at = true, time.UnixMilli(at).UTC()
		if err != nil || !d.of(n, m.at) {
			return m, err
		}
		for i >= 0 && d.spans[i].from > n {
			i--
		}
		before = d.spans[i].from
	}
}

// now returns the clock's time; where that is doubted, the time of the last answer that is believed.
func (p present) now() time.Time {
	if p.doubted && p.last.known {
		return p.last.at.In(p.clock.Location())
	}
	return p.clock
}

// today returns the practice day.
func (p present) today() Day {
	if p.doubted && p.last.known {
		return p.last.day
	}
	return DayOf(p.clock)
}

// knownNow reads all that a planner or a report needs, as it is at a moment: everything but the counts of weeks before the
// one that first returns for today.
func knownNow(from reader, clock time.Time, first func(today Day) (week int)) (d *derived, p present, err error) {
	if p, err = presentIn(from, clock); err != nil {
		return nil, p, err
	}
	if p.anew {
		d, err = deriveWith(from, p.doubts, func(kept) {})
	} else {
		d, err = loadFrom(from, first(p.today()))
	}
	return d, p, err
}

// allWeeks is the first week where all of them are needed.
func allWeeks(Day) int { return math.MinInt32 }

// Clock is what a file makes of the machine's clock.
type Clock struct {
	Now     time.Time // what the clock says; where it is doubted, when the last answer was given that is believed
	Doubted bool      // the answers show that it cannot be right, or it was never set; what is answered does not count
	Says    string    // in a line, that it contradicts the answers and which of the two is believed; "" if it does not
	Asks    string    // in a line, whether it is right: it is more than a year ahead of the last answer; "" if it is not
}

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

// longForm is how a date is written in a sentence.
const longForm = "2 January 2006"

// says says that the clock contradicts the answers, and which of the two is believed.
func (p present) says() string {
	const notCounted = "Until it is set right, answers are kept but do not count."
	switch {
	case p.doubted && p.last.known:
		return p.between(p.last) + ". " + notCounted
	case p.doubted:
		return p.between(moment{}) + ", which cannot be. " + notCounted
	case p.anew:
		return p.between(p.ahead) + ", by a clock that was wrong: such answers are kept but do not count. If it is wrong now, set it right."
	}
	return ""
}

// asks asks whether the clock is right.
func (p present) asks() string {
	if !p.doubted && p.last.known && utcDay(p.clock)-utcDay(p.last.at) > farAhead {
		return p.between(p.last) + ". If that is not so, set the clock right."
	}
	return ""
}

// between says what the clock says, and when the last answer was given, if that is known.
func (p present) between(last moment) string {
	const form = "2 January 2006"
	text := "The clock of this machine says " + p.clock.Format(form)
	if last.known {
		text += ", and the last answer was given on " + last.at.In(p.clock.Location()).Format(form)
	}
	return text
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
