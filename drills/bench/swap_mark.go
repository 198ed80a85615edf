package bench

import (
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// SwapMarks says how the note that a swap adds stands to the chord, and in a key if there is one: rubs against E, the
// raised seventh of A minor, not in C major. What is of the key by another letter is said to be: Fx, which sounds G, is
// of A minor. It says too if the note is the lowest. It is zero for any other note of the scale that rubs against none.
func SwapMarks(s fret.Swap, k *theory.Key) say.Text {
	var out []say.Text
	if s.Rubbing() {
		out = append(out, sayRubsAgainst(s.Chord.Root.Up(s.Rubs)))
	}
	if k != nil {
		if mark := keyMark(s, *k); !mark.IsZero() {
			out = append(out, mark)
		}
	}
	if s.Lowest {
		out = append(out, sayLowest(s.Adds))
	}
	if out == nil {
		return say.Text{}
	}
	return say.Of("{}", say.Commas(out...))
}

// keyMark says how what a swap adds stands in a key; zero for a note of the scale that the key spells as the chord does.
func keyMark(s fret.Swap, k theory.Key) say.Text {
	of := sayOfKey(k)
	if s.Standing != theory.OfScale {
		of = sayStandingOf(s.Standing, k)
	}
	note := s.Chord.Root.Up(s.Adds)
	switch {
	case s.Standing == theory.Outside:
		return sayNotInKey(k)
	case s.InKeyAs != note:
		return saySoundsAs(note, s.InKeyAs, of)
	case s.Standing == theory.OfScale:
		return say.Text{}
	}
	return of
}

// SwapAdds says what the n-th swap adds for what, counted from 0, and how that stands to the chord and in the key.
func (g Grip) SwapAdds(n int) say.Text {
	adds, marks := say.Trade(g.Swaps[n]), SwapMarks(g.Swaps[n], g.key)
	if marks.IsZero() {
		return adds
	}
	return say.Of("{}; {}", adds, marks)
}
