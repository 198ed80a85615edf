package neck

import (
	"slices"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// recolouring is a plain chord and the kind, by its id, that it becomes.
type recolouring struct {
	plain    theory.Chord
	coloured string
}

// Change is a plain shape that becomes a coloured one by moving one string.
type Change struct {
	Plain theory.Chord
	fret.Swap
}

// from reports whether a change is of a shape.
func (c Change) from(h Held) bool { return c.Plain == h.Chord && slices.Equal(c.From, h.Shape) }
