package drills

import (
	"fmt"
	"strings"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// SwapMarks says how the note that a swap adds stands to the chord, and in a key if there is one: rubs against E, the
// raised seventh of A minor, not in C major. It is "" for a note of the scale that rubs against none.
func SwapMarks(s fret.Swap, k *theory.Key) string {
	var out []string
	if s.Rubbing() {
		out = append(out, fmt.Sprintf("rubs against %s", s.Chord.Root.Up(s.Rubs)))
	}
	switch {
	case k == nil || s.Standing == theory.OfScale:
	case s.Standing == theory.Outside:
		out = append(out, fmt.Sprintf("not in %s", k))
	default:
		out = append(out, fmt.Sprintf("%s of %s", s.Standing, k))
	}
	return strings.Join(out, ", ")
}

// SwapAdds says what the n-th swap adds for what, counted from 0, and how that stands to the chord and in the key.
func (g Grip) SwapAdds(n int) string {
	adds := g.Swaps[n].Trade()
	if marks := SwapMarks(g.Swaps[n], g.key); marks != "" {
		adds += ": " + marks
	}
	return adds
}
