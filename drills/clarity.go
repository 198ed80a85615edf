package drills

// Clarity is how clearly a question sounds, from any of its forms to the one that is told most easily. Contrasts are met at their
// clearest and grow closer as they are told: so ears learn better than with close ones from the start (Wisniewski and others, PLoS
// ONE 2017).
type Clarity int

// The clarities.
const (
	AnyForm  Clarity = iota // every way to play it, in every voice
	Clear                   // in the instrument's own voice; two notes one after the other
	Clearest                // strummed or rising, in the instrument's own voice
)

// How often in a row something must have been right until it is asked less clearly (from judgement).
const (
	clearAfter = 1
	anyAfter   = 3
)

// ClarityAfter returns how clearly a target is asked that was right so many times in a row.
func ClarityAfter(right int) Clarity {
	switch {
	case right < clearAfter:
		return Clearest
	case right < anyAfter:
		return Clear
	}
	return AnyForm
}
