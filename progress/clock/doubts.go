package clock

import (
	"math"
	"slices"
	"time"
)

// Doubts are the answers of a file whose time is not believed.
type Doubts struct {
	Spans []span // in order
}

// span is answers from one number on, up to another.
type span struct{ From, to int64 }

// Of reports whether the time of an answer is doubted.
func (d Doubts) Of(n int64, at time.Time) bool {
	if !Dated(at) {
		return true
	}
	i, _ := slices.BinarySearchFunc(d.Spans, n, func(s span, n int64) int {
		if s.to <= n {
			return -1
		}
		return 1
	})
	return i < len(d.Spans) && d.Spans[i].From <= n
}

// Add doubts the answers from one number on, up to another. They come after those that are doubted already.
func (d *Doubts) Add(from, to int64) {
	if last := len(d.Spans) - 1; last >= 0 && d.Spans[last].to == from {
		d.Spans[last].to = to
		return
	}
	d.Spans = append(d.Spans, span{from, to})
}

// Judge judges the runs of a file.
func Judge(runs []Run) (d Doubts) {
	for i, believed := range believe(runs) {
		to := int64(math.MaxInt64)
		if i+1 < len(runs) {
			to = runs[i+1].From
		}
		if !believed {
			d.Add(runs[i].From, to)
		}
	}
	return d
}

// Runs are the runs of answers that are added in the order they were given.
type Runs []Run

// Add adds an answer. One whose time cannot be true by itself is of no run.
func (r *Runs) Add(n int64, at time.Time) {
	if day := UTCDay(at); Dated(at) && (len(*r) == 0 || (*r)[len(*r)-1].Day != day) {
		*r = append(*r, Run{n, day})
	}
}
