package fret

import "math"

// Fingering is how a hand holds a shape, and what that asks of it.
//
// The stops are taken in the order of their frets and, on one fret, of the strings, which is the order of
// the fingers of a hand on the neck. Each finger takes the next stop, or lies across several of one fret as a
// barre, if no string under it sounds open or at a lower fret. Every such way is tried and the easiest kept. The
// hand is at rest with a finger a fret. What a way asks is a sum; effort.go tells of what.

// Efforts are rounded to steps: what asks less than half a step more than a number of steps asks just that.
const (
	stepsToOne = 100.0
	halfStep   = 0.5 / stepsToOne
)

// tiny is more than sums of efforts are off by rounding.
const tiny = 1e-9

// fingersOnHand is how many fingers stop strings; the thumb stays behind the neck.
const fingersOnHand = 4

// longestBarre is how many strings another finger than the index can lie across.
const longestBarre = 3

// Finger finds the easiest fingering of a shape: the finger of each string in the tuning's order, 1 the index to
// 4 the little finger, 0 none; the fret of the index finger's barre, 0 if there is none; and the effort. It
// reports false if four fingers cannot hold the shape.
func Finger(s Shape) (fingers []int, barre int, effort float64, ok bool) {
	var h holding
	if len(s) > maxStrings || !h.find(s, math.Inf(1)) {
		return nil, 0, 0, false
	}
	fingers = make([]int, len(s))
	h.best.copyTo(fingers)
	return fingers, h.best.barre(), h.best.effort, true
}

// stop is a string that a finger holds down.
type stop struct{ str, fret int8 }

// way is one way to hold some of the stops.
type way struct {
	finger [maxStrings]int8 // of each string
	index  int8             // strings under the index finger
	at     int8             // fret of the index finger
	effort float64
}

func (w *way) copyTo(fingers []int) {
	for i := range fingers {
		fingers[i] = int(w.finger[i])
	}
}

func (w *way) barre() int {
	if w.index > 1 {
		return int(w.at)
	}
	return 0
}

// holding looks for the easiest way.
type holding struct {
	shape  Shape
	stops  [maxStrings]stop
	count  int
	narrow float64 // how wide the frets are at the lowest stop, 1 at the nut
	best   way
}

// find finds the easiest way to hold a shape and reports whether there is one that asks no more than most, a number
// of steps.
func (h *holding) find(s Shape, most float64) bool {
	h.shape, h.count = s, 0
	lo, hi := 0, 0
	for i, f := range s {
		if f <= 0 {
			continue
		}
		if lo == 0 || f < lo {
			lo = f
		}
		hi = max(hi, f)
		// Keep the stops in order of fret, then of string.
		j := h.count
		for ; j > 0 && int(h.stops[j-1].fret) > f; j-- {
			h.stops[j] = h.stops[j-1]
		}
		h.stops[j] = stop{int8(i), int8(f)}
		h.count++
	}
	start := way{effort: spread(lo, hi) + silence(s, hi)}
	if h.count == 0 {
		h.best = start
		return start.effort <= most
	}
	h.narrow = fretWidth[min(lo, len(fretWidth)-1)]
	bound := most + halfStep
	if start.effort+h.least()-tiny >= bound {
		return false
	}
	h.best.effort = bound
	h.place(start, 0, 0, 0)
	if h.best.effort == bound {
		return false
	}
	h.best.effort = math.Round(h.best.effort*stepsToOne) / stepsToOne
	return true
}

// spread is what it asks to cover the frets from the lowest stop to the highest.
func spread(lo, hi int) float64 {
	return cost.span*float64(hi-lo) + cost.wide*float64(max(0, hi-lo+1-leastReach))
}

// least is what the stops ask at the least, beside span and silence: on each fret a finger for each string or a barre
// across them, and for the best place of the first finger the way up the neck and the stretch from there.
func (h *holding) least() float64 {
	first, last := h.stops[0].fret, h.stops[h.count-1].fret
	effort, frets := 0.0, 0
	for i := 0; i < h.count; {
		from := i
		for ; i < h.count && h.stops[i].fret == h.stops[from].fret; i++ {
		}
		strings := float64(i - from)
		effort += min(cost.finger*strings, cost.finger+cost.barre+cost.under*strings)
		frets++
	}
	reach := math.Inf(1)
	for f := int8(1); int(f)+frets-1 <= fingersOnHand; f++ {
		apart := float64(max(0, last-first-(fingersOnHand-f)))
		reach = min(reach, rest(first, f)+cost.stretch*h.narrow*apart)
	}
	return effort + reach
}

// rest is what it asks to put the first finger down: how far the hand is from where it rests at the nut.
func rest(fret, finger int8) float64 {
	up := float64(fret - finger)
	return cost.position*max(0, up) + cost.squeeze*max(0, -up)
}

// fretWidth is how wide the frets are, the first fret 1: each is a semitone narrower than the last.
var fretWidth = func() (w [maxTypedFret + 1]float64) {
	for f := range w {
		w[f] = math.Exp2(float64(1-f) / 12)
	}
	return w
}()

// silence is what the strings ask that no finger stops: those to keep silent, those to miss, and those that ring open
// beside a highest stop.
func silence(s Shape, highest int) float64 {
	first, last, open := -1, -1, 0
	for i, f := range s {
		if f == Muted {
			continue
		}
		if first < 0 {
			first = i
		}
		last = i
		if f == 0 {
			open++
		}
	}
	effort := beside(open, highest) + missed(first)
	for i, f := range s {
		switch {
		case f != Muted || i < first:
		case i > last:
			effort += cost.topMute
		default:
			effort += cost.midMute
		}
	}
	return effort
}

// missed is what it asks to miss so many strings before the first that sounds.
func missed(strings int) float64 {
	return cost.miss*float64(strings) + cost.deepMiss*float64(max(0, strings-easyMisses))
}

// beside is what it asks that strings ring open beside a highest stop.
func beside(open, highest int) float64 {
	return cost.beside * float64(min(open, mostBeside)*max(0, highest-openReach))
}

// place puts fingers on the stops from n on; the last finger placed is finger, on a fret.
func (h *holding) place(w way, n int, finger, fret int8) {
	if n == h.count {
		if w.effort < h.best.effort {
			h.best = w
		}
		return
	}
	s := h.stops[n]
	left := 0 // frets still to come need a finger each at least
	for i := n + 1; i < h.count; i++ {
		if h.stops[i].fret != h.stops[i-1].fret {
			left++
		}
	}
	for f := finger + 1; int(f)+left <= fingersOnHand; f++ {
		asked := cost.finger
		if finger == 0 {
			asked += rest(s.fret, f)
		} else {
			apart := float64(s.fret - fret - (f - finger))
			asked += cost.stretch*h.narrow*max(0, apart) + cost.squeeze*max(0, -apart)
		}
		if f == fingersOnHand {
			asked += cost.little
		}
		// Each of the frets left asks for a finger at least.
		if w.effort+asked+cost.finger*float64(left)-tiny >= h.best.effort {
			continue
		}
		for under := 1; n+under <= h.count; under++ {
			if under > 1 && !h.across(s, h.stops[n+under-1]) || under > longestBarre && f > 1 {
				break
			}
			next := w
			next.effort += asked
			if under > 1 {
				across := int(h.stops[n+under-1].str-s.str) + 1
				lie := cost.barre + cost.under*float64(across) + cost.long*float64(max(0, across-easyBarre))
				if f > 1 {
					lie *= 2
				}
				if h.arches(h.stops[n+under-1]) {
					lie += cost.arch
				}
				next.effort += lie
			}
			for i := range under {
				next.finger[h.stops[n+i].str] = f
			}
			if f == 1 {
				next.index, next.at = int8(under), s.fret
			}
			h.place(next, n+under, f, s.fret)
		}
	}
}

// across reports whether one finger can hold two stops of one fret and all strings between.
func (h *holding) across(a, b stop) bool {
	if a.fret != b.fret {
		return false
	}
	for i := a.str; i < b.str; i++ {
		if f := h.shape[i]; f != Muted && f < int(a.fret) {
			return false
		}
	}
	return true
}

// arches reports whether a string nearer to the palm than a stop sounds at a lower fret.
func (h *holding) arches(s stop) bool {
	for _, f := range h.shape[s.str+1:] {
		if f != Muted && f < int(s.fret) {
			return true
		}
	}
	return false
}
