package progress

import (
	"database/sql"
	"errors"
	"math"
	"time"
)

// presentIn judges what a machine's clock says by the answers of a file. It takes long only where the two contradict each
// other.
func presentIn(from reader, machine time.Time) (p present, err error) {
	p.clock = written(machine)
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

// knownNow reads all that a planner or a report needs, as it is at a moment: everything but the counts of weeks before the
// one that first returns for today.
func knownNow(from reader, machine time.Time, first func(today Day) (week int)) (d *derived, p present, err error) {
	if p, err = presentIn(from, machine); err != nil {
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
