package shapes

import (
	"math"
	"slices"

	"sparetone/drills/neck"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// What was done with fingers is mended where it was done: of the string that was moved it is said which fret would be right, and if
// none is, which string to move.

// nearestSwap is, of the right ways to move a string, the one that lies nearest to what was made: on the string that was moved, if that
// has one.
func nearestSwap(swaps []fret.Swap, from, made fret.Shape) fret.Swap {
	best, least := swaps[0], math.MaxInt
	for _, w := range swaps {
		at := len(from) - w.String
		far := neck.Travel(w.To, made)
		if made[at] == from[at] {
			far += elsewhere
		}
		if far < least {
			best, least = w, far
		}
	}
	return best
}

// elsewhere is how much further a swap is that moves another string than was moved: more than any frets.
const elsewhere = 1000

// mendedSwap says what the string that was moved sounds, and to which fret it, or which other string, is to go.
func mendedSwap(before fret.Voicing, made fret.Shape, after fret.Voicing) say.Text {
	right := slices.IndexFunc(after.Strings, func(s fret.StringTone) bool { return s.Fret != before.Strings[len(before.Strings)-s.Number].Fret })
	want := after.Strings[right]
	var moved []int
	for i := range made {
		if made[i] != before.Shape[i] {
			moved = append(moved, before.Strings[i].Number)
		}
	}
	on := before.Tuning
	switch {
	case len(moved) == 1 && moved[0] == want.Number:
		return sayOtherFret(on, want.Number, made[right], want, after.Chord)
	case len(moved) == 1:
		return sayOtherString(on, moved[0], want, after.Chord)
	}
	return sayMoveTo(on, want, after.Chord)
}

// mended says which string of a shape to move where, or which two, so that it becomes another one; zero where more are amiss.
func mended(made, right fret.Voicing) say.Text {
	var amiss []int
	for i := range made.Shape {
		if made.Shape[i] != right.Shape[i] {
			amiss = append(amiss, i)
		}
	}
	switch at := amiss[0]; len(amiss) {
	case 1:
		return sayOtherFret(made.Tuning, made.Strings[at].Number, made.Shape[at], right.Strings[at], right.Chord)
	case 2:
		return sayTwoFrets(made.Tuning, right.Strings[at], right.Strings[amiss[1]], right.Chord)
	}
	return say.Text{}
}
