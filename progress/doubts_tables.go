package progress

import (
	"database/sql"
	"errors"
	"time"
)

// runsIn reads the runs of the answers of a file.
func runsIn(from reader) (r runs, err error) {
	err = each(from, "SELECT n, at FROM answers ORDER BY n", nil, func(row *sql.Rows) error {
		var n, at int64
		err := row.Scan(&n, &at)
		r.add(n, time.UnixMilli(at))
		return err
	})
	return r, err
}

// doubtsIn judges anew which answers of a file are doubted.
func doubtsIn(from reader) (doubts, error) {
	runs, err := runsIn(from)
	return doubtsOf(runs), err
}

// anyDoubted reports whether any answer of a file is doubted, judged anew.
func anyDoubted(from reader) (any bool, err error) {
	d, err := doubtsIn(from)
	if err != nil || len(d.spans) > 0 {
		return true, err
	}
	err = from.QueryRow("SELECT EXISTS (SELECT 1 FROM answers WHERE at < ? OR at >= ?)", firstSet.UnixMilli(), lastTime.UnixMilli()).Scan(&any)
	return any, err
}

// doubtsKept reads which answers of a file are doubted, as it was last judged.
func doubtsKept(from reader) (d doubts, err error) {
	err = each(from, "SELECT answer FROM doubts ORDER BY answer", nil, func(row *sql.Rows) error {
		var n int64
		err := row.Scan(&n)
		d.add(n, n+1)
		return err
	})
	return d, err
}

// doubtful says of a time at which an answer is about to be kept after all others whether it is doubted. If the answers
// before have to be judged anew with it, contested is true.
func doubtful(from reader, at time.Time) (doubted, contested bool, err error) {
	if !dated(at) {
		return true, false, nil
	}
	var before, believed int64
	err = from.QueryRow(`SELECT at, EXISTS (SELECT 1 FROM doubts WHERE answer = n) FROM answers WHERE at >= ? AND at < ? ORDER BY n DESC LIMIT 1`,
		firstSet.UnixMilli(), lastTime.UnixMilli()).Scan(&before, &doubted)
	if errors.Is(err, sql.ErrNoRows) {
		return false, false, nil
	}
	if err != nil || utcDay(time.UnixMilli(before)) == utcDay(at) { // it is of the same run
		return doubted, false, err
	}
	err = from.QueryRow("SELECT at FROM answers WHERE n NOT IN (SELECT answer FROM doubts) ORDER BY n DESC LIMIT 1").Scan(&believed)
	if errors.Is(err, sql.ErrNoRows) { // what is derived does not follow
		return false, true, nil
	}
	return false, utcDay(at) < utcDay(time.UnixMilli(believed))-slack, err
}
