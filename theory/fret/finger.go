package fret

import (
	"cmp"
	"slices"
)

// Finger finds the easiest fingering of a shape: the finger of each string, the fret of the index
// finger's barre (0 if none) and the effort. It reports false if four fingers cannot hold it.
func Finger(s Shape) (fingers []int, barre int, effort float64, ok bool) {
	lo, hi := 99, 0
	for _, f := range s {
		if f > 0 {
			lo, hi = min(lo, f), max(hi, f)
		}
	}
	fingers = make([]int, len(s))
	if hi == 0 {
		return fingers, 0, 0, true
	}
	held := stopped(s, 0)
	if len(held) > 4 {
		first, last := slices.Index(s, lo), len(s)-1
		for s[last] != lo {
			last--
		}
		if slices.Contains(s[first:last+1], 0) {
			return nil, 0, 0, false
		}
		barre = lo
		held = stopped(s, lo)
		if len(held) > 3 {
			return nil, 0, 0, false
		}
		for i, f := range s {
			if f == lo {
				fingers[i] = 1
			}
		}
	}
	next := 1
	if barre > 0 {
		next = 2
	}
	for n, i := range held {
		left := len(held) - n - 1
		fingers[i] = min(max(next, s[i]-lo+1), 4-left)
		next = fingers[i] + 1
	}
	effort = float64(len(held)) + float64(hi-lo) + float64(lo-1)/4
	if barre > 0 {
		effort += 3
	}
	return fingers, barre, effort, true
}

// stopped returns the strings stopped above a fret, by fret, then in the tuning's order.
func stopped(s Shape, above int) []int {
	var out []int
	for i, f := range s {
		if f > above {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(s[a], s[b]) })
	return out
}
