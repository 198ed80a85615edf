package wording

import (
	"sparetone/theory"
	"sparetone/theory/fret"
)

// StringsWith lists the numbers of the strings that sound a tone of the chord.
func StringsWith(v fret.Voicing, tone theory.Interval) []int {
	var out []int
	for _, s := range v.Strings {
		if s.Fret != fret.Muted && !s.Foreign && s.Interval == tone {
			out = append(out, s.Number)
		}
	}
	return out
}

// soundedTones lists the tones of a voicing's chord that some string sounds, from the root up.
func soundedTones(v fret.Voicing) []theory.Interval {
	var out []theory.Interval
	for _, tone := range v.Chord.Kind.Formula {
		if len(StringsWith(v, tone)) > 0 {
			out = append(out, tone)
		}
	}
	return out
}
