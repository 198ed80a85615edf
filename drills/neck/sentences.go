package neck

import (
	"sparetone/drills/chord"
	"sparetone/drills/wording"
	"sparetone/theory"
	"sparetone/theory/say"
)

// NoShape is the error of a drill that found none for a kind of chord.
func NoShape(on *Instrument, k *theory.Kind) error {
	return say.Wrong("{} has no shape for {} chord that a hand can hold", say.Foreign(on.Tuning.Name), say.A(say.Kind{Kind: k}))
}

// NoSwap is the error of a drill that found no shape of a plain chord that an addition can be made to by one string.
func NoSwap(on *Instrument, a chord.Addition) error {
	return say.Wrong("{} has no shape of {} that becomes {} by one string", say.Foreign(on.Tuning.Name), wording.AChord(a.From()), say.A(say.Kind{Kind: a.To()}))
}
