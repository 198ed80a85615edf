package tables

import (
	"database/sql"
	"errors"
	"time"

	"sparetone/progress/clock"
)

// runsIn reads the runs of the answers of a file.
func runsIn(from Reader) (r clock.Runs, err error) {
	err = Each(from, "SELECT n, at FROM answers ORDER BY n", nil, func(row *sql.Rows) error {
		var n, at int64
		err := row.Scan(&n, &at)
		r.Add(n, time.UnixMilli(at))
		return err
	})
	return r, err
}

// DoubtsAnew judges anew which answers of a file are doubted.
func DoubtsAnew(from Reader) (clock.Doubts, error) {
	runs, err := runsIn(from)
	return clock.Judge(runs), err
}

// doubtsKept reads which answers of a file are doubted, as it was last judged.
func doubtsKept(from Reader) (d clock.Doubts, err error) {
	err = Each(from, "SELECT answer FROM doubts ORDER BY answer", nil, func(row *sql.Rows) error {
		var n int64
		err := row.Scan(&n)
		d.Add(n, n+1)
		return err
	})
	return d, err
}

// doubtful says of a time at which an answer is about to be kept after all others whether it is doubted. If the answers
// before have to be judged anew with it, contested is true.
func doubtful(from Reader, at time.Time) (doubted, contested bool, err error) {
	if !clock.Dated(at) {
		return true, false, nil
	}
	var before, believed int64
	err = from.QueryRow(`SELECT at, EXISTS (SELECT 1 FROM doubts WHERE answer = n) FROM answers WHERE at >= ? AND at < ? ORDER BY n DESC LIMIT 1`,
		clock.FirstSet.UnixMilli(), clock.LastTime.UnixMilli()).Scan(&before, &doubted)
	if errors.Is(err, sql.ErrNoRows) {
		return false, false, nil
	}
	if err != nil || clock.UTCDay(time.UnixMilli(before)) == clock.UTCDay(at) { // it is of the same run
		return doubted, false, err
	}
	err = from.QueryRow("SELECT at FROM answers WHERE n NOT IN (SELECT answer FROM doubts) ORDER BY n DESC LIMIT 1").Scan(&believed)
	if errors.Is(err, sql.ErrNoRows) { // what is derived does not follow
		return false, true, nil
	}
	return false, clock.UTCDay(at) < clock.UTCDay(time.UnixMilli(believed))-clock.Slack, err
}
