package drills

import (
	"fmt"
	"strings"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// SwapMarks says how the note that a swap adds stands to the chord, and in a key if there is one: rubs against E, the
// raised seventh of A minor, not in C major. What is of the key by another letter is said to be: Fx, which sounds G, is
// of A minor. It says too if the note is the lowest. It is "" for any other note of the scale that rubs against none.
func SwapMarks(s fret.Swap, k *theory.Key) string {
	var out []string
	if s.Rubbing() {
		out = append(out, fmt.Sprintf("rubs against %s", s.Chord.Root.Up(s.Rubs)))
	}
	if k != nil {
		if mark := keyMark(s, *k); mark != "" {
			out = append(out, mark)
		}
	}
	if s.Lowest {
		out = append(out, fmt.Sprintf("the %s is the lowest note", s.Adds.Degree()))
	}
	return strings.Join(out, ", ")
}

// keyMark says how what a swap adds stands in a key; "" for a note of the scale that the key spells as the chord does.
func keyMark(s fret.Swap, k theory.Key) string {
	of := fmt.Sprintf("of %s", k)
	if s.Standing != theory.OfScale {
		of = fmt.Sprintf("%s %s", s.Standing, of)
	}
	note := s.Chord.Root.Up(s.Adds)
	switch {
	case s.Standing == theory.Outside:
		return fmt.Sprintf("not in %s", k)
	case s.InKeyAs != note:
		return fmt.Sprintf("%s, which sounds %s, is %s", note, s.InKeyAs, of)
	case s.Standing == theory.OfScale:
		return ""
	}
	return of
}

// SwapAdds says what the n-th swap adds for what, counted from 0, and how that stands to the chord and in the key.
func (g Grip) SwapAdds(n int) string {
	adds := g.Swaps[n].Trade()
	if marks := SwapMarks(g.Swaps[n], g.key); marks != "" {
		adds += "; " + marks
	}
	return adds
}
