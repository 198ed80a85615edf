// Package theory holds the values of music theory that sparetone works with: spelled notes,
// pitches, intervals, chord kinds and chords. It is pure: no input or output, no clock, no
// randomness, no state.
//
// Spelling is kept everywhere. B♭ and A♯ are different notes of one pitch class; an augmented
// fourth and a diminished fifth are different intervals of one size.
package theory
