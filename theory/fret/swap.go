package fret

import (
	"cmp"
	"slices"

	"sparetone/theory"
)

// Swap is one string of a shape moved from one fret to another, so that the chord gains a note it did
// not have.
type Swap struct {
	From, To         Shape
	String           int // number of the string that moves
	FromFret, ToFret int
	Chord            theory.Chord    // what To is
	Adds             theory.Interval // what the string sounds after, above the root
	GivesUp          theory.Interval // what it sounded before
	Spare            bool            // what is given up still sounds on another string
	Effort           float64         // what To asks of the hand
	InKey            bool            // the added note is of the key; true if no key is given
}

// Swaps returns every way to give up a doubled note of a shape, or the third for a suspension, by
// moving one string to a note that the chord can use: the easiest first. It returns none if the shape does
// not fit the tuning.
func Swaps(t *Tuning, s Shape, c theory.Chord, key *theory.Key) []Swap {
	v, err := Voice(t, s, c)
	if err != nil {
		return nil
	}
	var out []Swap
	for i, st := range v.Strings {
		third := st.Interval.Number == 3 && len(c.Kind.Formula) <= 4
		if st.Fret == Muted || st.Foreign || !st.Doubled && !third {
			continue
		}
		for f := 0; f <= min(t.Frets, DefaultHand.MaxFret); f++ {
			if f > 0 && f <= t.Start(i) {
				continue
			}
			above := t.MIDI(i, f) - c.Root.Class()
			if _, ok := c.Kind.Tone(theory.Interval{Number: 1, Semitones: above}); ok {
				continue
			}
			to := slices.Clone(s)
			to[i] = f
			chord, ok := named(t, to, c.Root)
			if !ok {
				continue
			}
			fingers, _, effort, ok := Finger(to)
			if !ok || fingers == nil || span(to) > DefaultHand.Span {
				continue
			}
			adds, _ := chord.Kind.Tone(theory.Interval{Number: 1, Semitones: above})
			out = append(out, Swap{
				From: s, To: to, String: st.Number, FromFret: st.Fret, ToFret: f, Chord: chord,
				Adds: adds, GivesUp: st.Interval, Spare: st.Doubled, Effort: effort,
				InKey: key == nil || key.Contains(c.Root.Up(adds)),
			})
		}
	}
	slices.SortStableFunc(out, func(a, b Swap) int { return cmp.Compare(a.Effort, b.Effort) })
	return out
}

// named returns the plainest complete name of a shape on a given root.
func named(t *Tuning, s Shape, root theory.Note) (theory.Chord, bool) {
	for _, n := range Names(t, s, theory.Context{}) {
		if n.Chord.Root.Same(root) && n.Chord.Without == 0 {
			c := n.Chord
			c.Root, c.Bass = root, root
			return c, true
		}
	}
	return theory.Chord{}, false
}

// span returns how many frets the stopped strings cover, lowest to highest inclusive.
func span(s Shape) int {
	lo, hi := 99, 0
	for _, f := range s {
		if f > 0 {
			lo, hi = min(lo, f), max(hi, f)
		}
	}
	return max(0, hi-lo+1)
}
