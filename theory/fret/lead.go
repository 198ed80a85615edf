package fret

import (
	"slices"

	"sparetone/theory"
)

// Leads reports whether every tendency tone that a chord sounds moves as it should when the next one comes: by its step,
// up or down, on its own string or to the same pitch on another. A tone that no string sounds has nothing to do.
func Leads(r theory.Resolution, from, to Voicing) bool {
	for _, s := range from.Strings {
		if s.Fret == Muted {
			continue
		}
		n := slices.IndexFunc(r.Leads, func(l theory.Lead) bool { return l.From == s.Interval })
		if n >= 0 && !sounds(to, s.Pitch.MIDI()+r.Step(r.Leads[n]), r.Leads[n].To) {
			return false
		}
	}
	return true
}

// sounds reports whether a string sounds a pitch as a tone of the chord.
func sounds(v Voicing, midi int, tone theory.Interval) bool {
	return slices.ContainsFunc(v.Strings, func(s StringTone) bool {
		return s.Fret != Muted && s.Interval == tone && s.Pitch.MIDI() == midi
	})
}

// Reaches reports whether a hand that holds a shape goes on to another without moving along the neck: the lowest frets that they stop lie no further
// apart than fingers on neighbouring frets do. Where nothing is stopped the hand lies wherever it is near.
func Reaches(from, to Shape) bool {
	a, b := lowestStop(from), lowestStop(to)
	return a == 0 || b == 0 || max(a-b, b-a) < fingersOnHand
}

// lowestStop returns the lowest fret that a shape stops, 0 if it stops none.
func lowestStop(s Shape) int {
	low := 0
	for _, f := range s {
		if f > 0 && (low == 0 || f < low) {
			low = f
		}
	}
	return low
}
