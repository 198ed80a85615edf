package progress

import (
	"math"
	"slices"
	"time"
)

// doubts are the answers of a file whose time is not believed.
type doubts struct {
	spans []span // in order
}

// span is answers from one number on, up to another.
type span struct{ from, to int64 }

// of reports whether the time of an answer is doubted.
func (d doubts) of(n int64, at time.Time) bool {
	if !dated(at) {
		return true
	}
	i, _ := slices.BinarySearchFunc(d.spans, n, func(s span, n int64) int {
		if s.to <= n {
			return -1
		}
		return 1
	})
	return i < len(d.spans) && d.spans[i].from <= n
}

// add doubts the answers from one number on, up to another. They come after those that are doubted already.
func (d *doubts) add(from, to int64) {
	if last := len(d.spans) - 1; last >= 0 && d.spans[last].to == from {
		d.spans[last].to = to
		return
	}
	d.spans = append(d.spans, span{from, to})
}

// doubtsOf judges the runs of a file.
func doubtsOf(runs []run) (d doubts) {
	for i, believed := range believe(runs) {
		to := int64(math.MaxInt64)
		if i+1 < len(runs) {
			to = runs[i+1].from
		}
		if !believed {
			d.add(runs[i].from, to)
		}
	}
	return d
}

// runs are the runs of answers that are added in the order they were given.
type runs []run

// add adds an answer. One whose time cannot be true by itself is of no run.
func (r *runs) add(n int64, at time.Time) {
	if day := utcDay(at); dated(at) && (len(*r) == 0 || (*r)[len(*r)-1].day != day) {
		*r = append(*r, run{n, day})
	}
}
