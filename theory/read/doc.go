// Package read turns what people type into values of theory: notes, intervals, tones of a chord, kinds of chord,
// chords and keys, as they are written and said. The commands, the bench and the drills all read with it, so that
// what is understood in one place is understood in all. Like theory it is pure. Tunings and shapes are read where
// they are, in theory/fret.
//
// Everything that the program writes is read back to the same value. What could be two things is not guessed at:
// the error says which two, and how each is written without doubt.
package read
