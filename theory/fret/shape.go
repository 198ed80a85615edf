package fret

import "sparetone/theory"

// Muted is the fret of a string that is not played.
const Muted = -1

// Shape is a fret for each string in the tuning's order: 0 is the open string, Muted is not played.
type Shape []int

// Voicing is a shape on a tuning, heard as a chord: what each string sounds and is.
type Voicing struct {
	Tuning  *Tuning
	Shape   Shape
	Chord   theory.Chord
	Strings []StringTone // in the tuning's order
}

// StringTone is what one string of a voicing sounds.
type StringTone struct {
	Number   int             // the string's number; 1 is the last of the tuning
	Fret     int             // Muted if it does not sound; then the rest is zero
	Pitch    theory.Pitch    // spelled as the chord spells it
	Interval theory.Interval // above the chord's root, as its formula has it
	Foreign  bool            // the note is not one of the chord's; Interval is then its plainest spelling
	Doubled  bool            // another string sounds the same note, in this or another octave
}
