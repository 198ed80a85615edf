package tui

import (
	"strings"

	"sparetone/drills/practice"
)

// The signs of a bar of what is learnt: the firmer, the taller.
const (
	keptSign  = "█"
	knownSign = "▅"
	metSign   = "▂"
	newSign   = "·"
)

// learntLegend says what the signs mean.
const learntLegend = keptSign + " kept for weeks   " + knownSign + " known   " + metSign + " met   " + newSign + " new"

// How many columns a bar takes.
const (
	leastBar = 6
	mostBar  = 24
)

// learntBar draws how much of some things is kept, known and met, in so many columns. What there is one of takes a column at the least, if
// there are as many.
func learntBar(l practice.Learnt, room int) string {
	counts := []int{l.Kept, l.Known - l.Kept, l.Met - l.Known, l.Of - l.Met}
	columns := share(counts, min(room, l.Of*4))
	var b strings.Builder
	for i, sign := range []string{keptSign, knownSign, metSign, newSign} {
		b.WriteString(strings.Repeat(sign, columns[i]))
	}
	return b.String()
}

// share parts some columns by counts: each count that is not zero has one at the least, and what is left goes where most is missing.
func share(counts []int, columns int) []int {
	all := 0
	for _, n := range counts {
		all += n
	}
	out := make([]int, len(counts))
	left := columns
	for i, n := range counts {
		if n > 0 {
			out[i], left = 1, left-1
		}
	}
	for ; left > 0 && all > 0; left-- {
		most, at := 0.0, 0
		for i, n := range counts {
			if missing := float64(n*columns)/float64(all) - float64(out[i]); n > 0 && (missing > most || most == 0) {
				most, at = missing, i
			}
		}
		out[at]++
	}
	return out
}
