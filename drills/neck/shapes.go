package neck

import (
	"slices"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// NewReach is the reach, 0 to 1, below which a thing is new: it is then asked on the shapes that players meet first, before any other.
// On the first rung it is below.
const NewReach = 1.0 / 3

// Shapes in a question are among the easiest of their chord, and none asks too much of a hand. Where the
// student is to know little of the neck yet, they are the very easiest.
const (
	easiestShapes = 6
	MostEffort    = 19.0
	FirstEffort   = 9.5
	fewestShapes  = 6 // of a kind, on all roots together, however hard they are
	mostFrets     = 4 // that the hand covers: a finger each
)

// Voice hears a shape as its chord.
func (h Held) Voice(on *Instrument) (fret.Voicing, error) {
	return fret.Voice(on.Tuning, h.Shape, h.Chord)
}

// hand is what the hand is taken to do in questions: less than what it can.
func (i *Instrument) hand() fret.Hand {
	h := i.Hand
	h.Span = min(h.Span, mostFrets)
	return h
}

// Shapes returns the shapes of a chord that questions are made from, the easiest first. What is left out
// of them is no more than the fifth of a chord of five tones: the root always sounds.
func (i *Instrument) Shapes(c theory.Chord) []Held {
	i.neck.lock.Lock()
	defer i.neck.lock.Unlock()
	if out, known := i.neck.shapes[c]; known {
		return out
	}
	out := i.held(c, easiestShapes)
	if i.neck.shapes == nil {
		i.neck.shapes = map[theory.Chord][]Held{}
	}
	i.neck.shapes[c] = out
	return out
}

// easiest finds so many shapes of a chord that questions may be made from; 0 is all of them.
func (i *Instrument) easiest(c theory.Chord, most int) []Held {
	wish := fret.Wish{Most: most, Effort: MostEffort, Needs: c.Kind.Formula}
	if len(wish.Needs) >= 5 {
		wish.Needs = slices.DeleteFunc(slices.Clone(wish.Needs), func(i theory.Interval) bool { return i == theory.PerfectFifth })
	}
	var out []Held
	for _, f := range fret.Easiest(i.Tuning, c, i.hand(), wish) {
		out = append(out, Held{c, f.Shape, f.Effort})
	}
	return out
}

// ShapesOf returns the shapes of a kind of chord on every root, as far as the student's reach goes.
func (i *Instrument) ShapesOf(k *theory.Kind, reach float64) []Held {
	if first := i.FirstShapes(k); reach < NewReach && len(first) > 0 {
		return first
	}
	var all [][]Held
	for _, r := range i.RootsFor(k) {
		all = append(all, i.Shapes(theory.NewChord(r, k)))
	}
	return Within(all, reach, func(h Held) float64 { return h.Effort })
}

// Within takes from each list, the easiest first, what lies within the student's reach: but a few at
// least, however hard.
func Within[T any](lists [][]T, reach float64, effort func(T) float64) []T {
	most := 1 + int(reach*(easiestShapes-1)+0.5)
	limit := FirstEffort + reach*(MostEffort-FirstEffort)
	for {
		var out []T
		total := 0
		for _, list := range lists {
			total += len(list)
			for n, x := range list {
				if n < most && effort(x) <= limit {
					out = append(out, x)
				}
			}
		}
		if len(out) >= min(fewestShapes, total) {
			return out
		}
		most, limit = most+1, limit+1
	}
}

// asked reports whether a shape leaves out no more than questions do: the fifth of a chord of five tones.
func asked(v fret.Voicing) bool {
	for _, tone := range v.Missing() {
		if len(v.Chord.Kind.Formula) < 5 || tone != theory.PerfectFifth {
			return false
		}
	}
	return true
}
