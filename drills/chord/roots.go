package chord

import (
	"slices"
	"strings"

	"sparetone/theory"
)

// Roots are the roots that questions draw from: each pitch class as its chords are mostly written
// (common practice, no source).
var Roots = MustNotes("C Db D Eb E F F# G Ab A Bb B")

// RootsOf returns the roots that chords of some kinds are asked on: each pitch class, written so that the chords
// have the fewest accidentals together.
func RootsOf(kinds ...*theory.Kind) []theory.Note {
	out := slices.Clone(Roots)
	for n, root := range out {
		for _, other := range MustNotes("C# D# Gb G# A#") {
			if other.Same(root) && signs(other, kinds) < signs(root, kinds) {
				out[n] = other
			}
		}
	}
	return out
}

// signs counts the accidentals in the notes of chords of some kinds on one root. One that nobody likes to read counts
// more than three that are common: a double one, and C♭, F♭, E♯ and B♯.
func signs(root theory.Note, kinds []*theory.Kind) int {
	sum := 0
	for _, k := range kinds {
		for _, i := range k.Formula {
			n := root.Up(i)
			sum += max(int(n.Alter), -int(n.Alter))
			if IsOdd(n) {
				sum += 4
			}
		}
	}
	return sum
}

// IsOdd reports whether a note is written as nobody likes to read it.
func IsOdd(n theory.Note) bool {
	return n.Alter > 1 || n.Alter < -1 || slices.Contains(oddNotes, n)
}

var oddNotes = MustNotes("Cb Fb E# B#")

// MustNotes reads a row of notes of our own tables.
func MustNotes(row string) []theory.Note {
	var out []theory.Note
	for _, s := range strings.Fields(row) {
		n, err := theory.ParseNote(s)
		if err != nil {
			panic("drills: " + err.Error())
		}
		out = append(out, n)
	}
	return out
}

// WrittenAs returns which of the roots a note is.
func WrittenAs(n theory.Note, roots []theory.Note) theory.Note {
	return roots[slices.IndexFunc(roots, n.Same)]
}

// OddlyWritten reports whether a note of a chord is written as nobody likes to read it.
func OddlyWritten(c theory.Chord) bool {
	for _, n := range c.Tones() {
		if IsOdd(n) {
			return true
		}
	}
	return false
}

// Plainly writes a root as it is spelled, or as chords are mostly written on it if that is a double flat, E♯ or
// the like.
func Plainly(n theory.Note) theory.Note {
	if n.Alter == 0 || slices.Contains(MustNotes("C# D# F# G# A# Db Eb Gb Ab Bb"), n) {
		return n
	}
	return Roots[slices.IndexFunc(Roots, n.Same)]
}
