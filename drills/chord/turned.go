package chord

import (
	"slices"

	"sparetone/theory"
)

// turnedOver are the numbers of the tones that a chord is turned over, so that one of them is lowest.
var turnedOver = []int{3, 5, 7}

// Turned returns a chord over each of its tones that it may be turned over: C over E, and C over G. A chord of which every note may be
// called the root, as of Caug, is what it was.
func Turned(c theory.Chord) (out []theory.Chord) {
	for _, tone := range c.Kind.Formula {
		switch {
		case !slices.Contains(turnedOver, tone.Number):
		case SameSound(c.Kind, c.Root, c.Root.Up(tone)):
			return []theory.Chord{c}
		default:
			out = append(out, over(c, tone))
		}
	}
	return out
}

// IsTurned reports whether a chord is written over another note than its root.
func IsTurned(c theory.Chord) bool { return c.Bass != c.Root }

// TurnedAs returns a chord over the tone of the number that another chord has in its bass, C over E as A over C♯: over its root, if it
// has none of that number.
func TurnedAs(c, like theory.Chord) theory.Chord {
	bass := like.Root.To(like.Bass).Number
	for _, tone := range c.Kind.Formula {
		if tone.Number == bass {
			return over(c, tone)
		}
	}
	return over(c, theory.Unison)
}

// over is a chord with one of its tones in the bass.
func over(c theory.Chord, tone theory.Interval) theory.Chord {
	c.Bass = c.Root.Up(tone)
	return c
}
