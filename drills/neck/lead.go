package neck

import (
	"sparetone/theory/fret"
)

// Resolved is a shape of a chord that wants to move on, and the shape in which it does: of all within the hand's reach
// in which each tendency tone moves as it should, the one that moves least.
type Resolved struct {
	Held
	To fret.Voicing
}
