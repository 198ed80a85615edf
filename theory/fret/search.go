package fret

import (
	"cmp"
	"slices"

	"sparetone/theory"
)

// Hand is what a hand can do.
type Hand struct {
	Span    int  // frets that four fingers cover, lowest to highest inclusive
	MaxFret int  // highest fret to look at
	Mute    bool // strings may be muted
}

// DefaultHand is an ordinary adult hand on a small neck.
var DefaultHand = Hand{Span: 4, MaxFret: 15}

// Found is a playable shape of a chord.
type Found struct {
	Shape   Shape
	Fingers []int   // finger of each string in the tuning's order: 1 index to 4 little finger, 0 none
	Barre   int     // fret of the index finger's barre, 0 if none
	Effort  float64 // what the shape asks of the hand; 0 is nothing but open strings
	Missing []theory.Interval
}

// Search returns the playable shapes of a chord, the easiest first.
func Search(t *Tuning, c theory.Chord, h Hand) []Found {
	var out []Found
	s := make(Shape, len(t.Strings))
	var walk func(i, lo, hi int)
	walk = func(i, lo, hi int) {
		if i == len(s) {
			if f, ok := found(t, s, c); ok {
				out = append(out, f)
			}
			return
		}
		if h.Mute {
			s[i] = Muted
			walk(i+1, lo, hi)
		}
		for f := 0; f <= min(h.MaxFret, t.Frets); f++ {
			if f > 0 && f <= t.Start(i) {
				continue
			}
			above := t.MIDI(i, f) - c.Root.Class()
			if _, ok := c.Kind.Tone(theory.Interval{Number: 1, Semitones: above}); !ok {
				continue
			}
			l, u := lo, hi
			if f > 0 {
				l, u = min(lo, f), max(hi, f)
				if u-l >= h.Span {
					continue
				}
			}
			s[i] = f
			walk(i+1, l, u)
		}
	}
	walk(0, 99, 0)
	slices.SortFunc(out, func(a, b Found) int {
		return cmp.Or(cmp.Compare(a.Effort, b.Effort), slices.Compare(a.Shape, b.Shape))
	})
	return out
}

func found(t *Tuning, s Shape, c theory.Chord) (Found, bool) {
	v, err := Voice(t, s, c)
	if err != nil {
		return Found{}, false
	}
	missing := v.Missing()
	for _, m := range missing {
		if !slices.Contains(c.Kind.Omit, m) {
			return Found{}, false
		}
	}
	if len(missing) > 0 && len(c.Kind.Formula) <= len(s) {
		return Found{}, false
	}
	fingers, barre, effort, ok := Finger(s)
	if !ok {
		return Found{}, false
	}
	return Found{slices.Clone(s), fingers, barre, effort, missing}, true
}
