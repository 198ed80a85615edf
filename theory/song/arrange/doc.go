// Package arrange finds shapes for the chords of a song: the easiest, the colours that each chord may take on, the path of shapes
// that asks the least movement of a hand, strings that keep one note throughout, and an order to pick in. It is pure, as package
// song is.
package arrange
