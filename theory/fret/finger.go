package fret

import "math"

// Fingering is how a hand holds a shape, and what that asks of it.
//
// The stops are taken in the order of their frets and, on one fret, of the strings, which is the order of
// the fingers of a hand on the neck. Each finger takes the next stop, or lies across several of one fret as a
// barre, if no string under it sounds open or at a lower fret. Every such way is tried and the easiest kept. The
// hand is at rest with a finger a fret. What a way asks is the sum of
//
//	fingers   1 for each finger that is down, 0.6 more for the little finger
//	barre     1, and 0.35 for each string it stops; as much again for another finger than the index, and 1.4 more
//	          if a string nearer to the palm sounds open or at a lower fret, which the finger has to arch over
//	span      0.25 for each fret between the lowest and the highest stop
//	stretch   0.75 for each fret that two neighbouring fingers lie further apart than at rest, less up the neck as
//	          the frets get narrower: half as much twelve frets up; 0.4 for each that they are closer
//	position  0.55 for each fret the hand is moved up from the nut, counted from where the index finger rests
//	mutes     1 for a string at the edge that must be kept silent, 2 for one between strings that sound
//
// so that open strings ask nothing. The palm is on the side of string 1. The figures are our own; they are set so
// that the shapes which players learn first come first (TestShapesAreFound measures how often).
const (
	effortFinger   = 1.0
	effortLittle   = 0.6
	effortBarre    = 1.0
	effortUnder    = 0.35
	effortArch     = 1.4
	effortSpan     = 0.25
	effortStretch  = 0.75
	effortSqueeze  = 0.4
	effortPosition = 0.55
	effortEdgeMute = 1.0
	effortMidMute  = 2.0
)

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
	start := way{effort: effortSpan*float64(hi-lo) + mutes(s)}
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

// least is what the stops ask at the least, beside span and mutes: on each fret a finger for each string or a barre
// across them, and for the best place of the first finger the way up the neck and the stretch from there.
func (h *holding) least() float64 {
	first, last := h.stops[0].fret, h.stops[h.count-1].fret
	effort, frets := 0.0, 0
	for i := 0; i < h.count; {
		from := i
		for ; i < h.count && h.stops[i].fret == h.stops[from].fret; i++ {
		}
		strings := float64(i - from)
		effort += min(effortFinger*strings, effortFinger+effortBarre+effortUnder*strings)
		frets++
	}
	reach := math.Inf(1)
	for f := int8(1); int(f)+frets-1 <= fingersOnHand; f++ {
		apart := float64(max(0, last-first-(fingersOnHand-f)))
		reach = min(reach, rest(first, f)+effortStretch*h.narrow*apart)
	}
	return effort + reach
}

// rest is what it asks to put the first finger down: how far the hand is from where it rests at the nut.
func rest(fret, finger int8) float64 {
	up := float64(fret - finger)
	return effortPosition*max(0, up) + effortSqueeze*max(0, -up)
}

// fretWidth is how wide the frets are, the first fret 1: each is a semitone narrower than the last.
var fretWidth = func() (w [maxTypedFret + 1]float64) {
	for f := range w {
		w[f] = math.Exp2(float64(1-f) / 12)
	}
	return w
}()

// mutes is the effort of keeping strings silent.
func mutes(s Shape) float64 {
	first, last := -1, -1
	for i, f := range s {
		if f != Muted {
			if first < 0 {
				first = i
			}
			last = i
		}
	}
	effort := 0.0
	for i, f := range s {
		if f == Muted {
			if i < first || i > last {
				effort += effortEdgeMute
			} else {
				effort += effortMidMute
			}
		}
	}
	return effort
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
		asked := effortFinger
		if finger == 0 {
			asked += rest(s.fret, f)
		} else {
			apart := float64(s.fret - fret - (f - finger))
			asked += effortStretch*h.narrow*max(0, apart) + effortSqueeze*max(0, -apart)
		}
		if f == fingersOnHand {
			asked += effortLittle
		}
		// Each of the frets left asks for a finger at least.
		if w.effort+asked+effortFinger*float64(left)-tiny >= h.best.effort {
			continue
		}
		for under := 1; n+under <= h.count; under++ {
			if under > 1 && !h.across(s, h.stops[n+under-1]) || under > longestBarre && f > 1 {
				break
			}
			next := w
			next.effort += asked
			if under > 1 {
				lie := effortBarre + effortUnder*float64(under)
				if f > 1 {
					lie *= 2
				}
				if h.arches(h.stops[n+under-1]) {
					lie += effortArch
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
