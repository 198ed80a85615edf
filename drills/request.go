package drills

import (
	"math/rand/v2"

	"sparetone/drills/neck"
)

// Request asks a drill for a question.
type Request struct {
	Target  string // which of the drill's targets
	On      *neck.Instrument
	InPlay  []string // the targets that may stand among the choices; empty means all
	Wanted  []string // of these, the ones that are worth asking now: they come first among the choices; nil if all are alike
	Anew    *Anew    // picks which of the choices is asked for; nil where it is Target
	Against string   // a target that has to stand among the choices if it fairly can; may be empty
	Clarity Clarity  // how clearly it is to sound
	Reach   float64  // how much of the neck is known, 0 to 1: from the few easiest shapes to all that are asked
	First   bool     // it was never asked, and is shown just before: of what is seen there are then two choices at the most
	Rand    *rand.Rand
}

// New reports whether what is asked for is new.
func (r Request) New() bool { return r.Reach < neck.NewReach }
