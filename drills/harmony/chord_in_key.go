package harmony

import (
	"sparetone/theory"
	"sparetone/theory/say"
)

// chordInKey is a chord in a key with notes to choose from.
type chordInKey struct {
	key            theory.Key
	chord          theory.Chord
	scale          []theory.Note
	named          say.Scale // the scale by its name
	right, offered []theory.Note
	good           [12]bool    // by pitch class: it is right, or a raised note of the key
	marked         theory.Note // the right one among those offered
}
