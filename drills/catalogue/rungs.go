package catalogue

import (
	"sparetone/drills"
	"sparetone/drills/neck"
	"sparetone/theory/say"
)

// Rungs returns the forms in which a target of a drill is asked on an instrument, the clearest first: one at least.
func Rungs(on *neck.Instrument, drill, target string) []drills.Rung {
	if d, ok := ByID(drill); ok {
		return drills.RungsOn(on, d.Rungs(target))
	}
	return drills.OneRung
}

// AtRung returns the form in which a target of a drill is asked at a rung, counted from 1, and which that is: beyond the last, the last.
func AtRung(on *neck.Instrument, drill, target string, rung int) (drills.Rung, int) {
	all := Rungs(on, drill, target)
	rung = min(max(1, rung), len(all))
	return all[rung-1], rung
}

// TellsIt says how far a target can be told that is asked at a rung: zero if it is asked in the first form still, or in one alone.
func TellsIt(on *neck.Instrument, drill, target string, rung int) say.Text {
	all := Rungs(on, drill, target)
	if told := min(rung-1, len(all)); told > 0 {
		return all[told-1].Words
	}
	return say.Text{}
}
