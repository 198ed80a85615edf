package neck

import (
	"sparetone/theory"
	"sparetone/theory/fret"
)

// Held is a shape of a chord that a hand can hold.
type Held struct {
	Chord  theory.Chord
	Shape  fret.Shape
	Effort float64
}

// Itself is a shape, where lists of what is made of shapes are looked at as well.
func (h Held) Itself() Held { return h }
