package chord

import (
	"slices"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// RightNames returns the names of what a shape sounds that are right (theory.RightNames), whatever the bass: Bsus2 is not
// what Bsus2/D is called, for D is one of the notes.
func RightNames(v fret.Voicing) []theory.Chord {
	var out []theory.Chord
	for _, n := range theory.RightNames(v.Pitches()) {
		out = append(out, n.Chord)
	}
	return out
}

// ForeignBass reports whether a chord is written over a bass that is none of its tones.
func ForeignBass(c theory.Chord) bool {
	return IsForeign(c, c.Bass)
}

// IsNamed reports whether a chord is one of the names, however its root is spelled and whatever bass
// it is written over.
func IsNamed(names []theory.Chord, c theory.Chord) bool {
	return slices.ContainsFunc(names, func(n theory.Chord) bool { return n.Kind == c.Kind && n.Root.Same(c.Root) })
}

// IsForeign reports whether a note is none of a chord's.
func IsForeign(c theory.Chord, n theory.Note) bool {
	_, own := c.Kind.Tone(c.Root.To(n))
	return !own
}

// NamesBeside are the other right names of a shape that is called by one of them, their roots written as the notes of that one are: those
// of kinds that are asked for, for the others, such as C6sus4, few players say.
func NamesBeside(names []theory.Chord, c theory.Chord) []theory.Chord {
	var out []theory.Chord
	for _, n := range names {
		if n.Root.Same(c.Root) && n.Kind == c.Kind || !isAsked(n.Kind) || slices.ContainsFunc(out, func(o theory.Chord) bool { return o.Root.Same(n.Root) && o.Kind == n.Kind }) {
			continue
		}
		root := n.Root
		if i := slices.IndexFunc(c.Tones(), root.Same); i >= 0 && !OddlyWritten(theory.NewChord(c.Tones()[i], n.Kind)) {
			root = c.Tones()[i]
		}
		out = append(out, theory.NewChord(root, n.Kind))
	}
	return out
}
