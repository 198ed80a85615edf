package tables

import (
	"database/sql"
	"errors"
	"math"
	"time"

	"sparetone/progress"
	"sparetone/progress/clock"
	"sparetone/progress/memory"
)

// Present judges what a machine's clock says by the answers of a file. It takes long only where the two contradict each
// other.
func Present(from Reader, machine time.Time) (p clock.Present, err error) {
	p.Clock = clock.Writable(machine)
	if p.Doubts, err = doubtsKept(from); err != nil {
		return p, err
	}
	if p.Last, err = lastBelieved(from, p.Doubts); err != nil {
		return p, err
	}
	switch {
	case !clock.Dated(p.Clock):
		p.Doubted = true
	case p.Last.Known && clock.UTCDay(p.Clock) < clock.UTCDay(p.Last.At)-clock.Slack:
		runs, err := runsIn(from)
		if err != nil {
			return p, err
		}
		now := clock.Run{From: math.MaxInt64 - 1, Day: clock.UTCDay(p.Clock)}
		if d := clock.Judge(append(runs, now)); d.Of(now.From, p.Clock) {
			p.Doubted = true
		} else {
			p.Doubts, p.Anew, p.Ahead = d, true, p.Last
			p.Last, err = lastBelieved(from, d)
		}
		return p, err
	}
	return p, nil
}

// lastBelieved returns when the last answer was given that is not doubted.
func lastBelieved(from Reader, d clock.Doubts) (m clock.Moment, err error) {
	for i, before := len(d.Spans)-1, int64(math.MaxInt64); ; i-- {
		var n, at int64
		err := from.QueryRow("SELECT n, at, day FROM answers WHERE n < ? AND at >= ? AND at < ? ORDER BY n DESC LIMIT 1",
			before, clock.FirstSet.UnixMilli(), clock.LastTime.UnixMilli()).Scan(&n, &at, &m.Day)
		if errors.Is(err, sql.ErrNoRows) {
			return clock.Moment{}, nil
		}
		m.Known, m.At = true, time.UnixMilli(at).UTC()
		if err != nil || !d.Of(n, m.At) {
			return m, err
		}
		for i >= 0 && d.Spans[i].From > n {
			i--
		}
		before = d.Spans[i].From
	}
}

// DerivedNow reads all that a planner or a report needs, as it is at a moment: everything but the counts of weeks before the
// one that first returns for today.
func DerivedNow(from Reader, machine time.Time, first func(today progress.Day) (week int)) (d *memory.Derived, p clock.Present, err error) {
	if p, err = Present(from, machine); err != nil {
		return nil, p, err
	}
	if p.Anew {
		d, err = DeriveWith(from, p.Doubts, func(AnswerRow) {})
	} else {
		d, err = LoadDerived(from, first(p.Today()))
	}
	return d, p, err
}

// AllWeeks is the first week where all of them are needed.
func AllWeeks(progress.Day) int { return math.MinInt32 }
