package neck

import "slices"

// fewestFirst is of how many chords of a kind shapes are asked first: those that players meet before any other, and if
// those are too few the easiest that they are taught.
const fewestFirst = 3

// Taught is the textbook's shapes of a kind of chord: those that players meet before any other, and the rest, the easiest
// first.
type Taught struct{ first, later []Held }

// FirstOnly are those that players meet before any other.
func (t Taught) FirstOnly() []Held { return t.first }

// Few are those and, if there are fewer than fewestFirst, the easiest of the others.
func (t Taught) Few() []Held {
	return slices.Concat(t.first, t.later[:min(len(t.later), max(0, fewestFirst-len(t.first)))])
}

// All are all that are taught.
func (t Taught) All() []Held { return slices.Concat(t.first, t.later) }
