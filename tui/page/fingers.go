package page

import (
	"slices"

	"sparetone/drills"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// TellsFingers is the act that writes in necks which finger stops what, or leaves it out again. Lines of text say it of the shapes that the
// page has.
func (w *Walk) TellsFingers(shapes ...drills.Reveal) Act {
	return Called("fingers", func(string) Next {
		w.Fingers = !w.Fingers
		if !w.Fingers {
			return Next{Said: noFingers, Aloud: true}
		}
		var all []say.Text
		for _, one := range shapes {
			held := sayFingers(one.Voicing)
			if !one.Caption.IsZero() {
				held = say.Of("{}: {}", one.Caption, held)
			}
			all = append(all, held)
		}
		return Next{Said: say.Sentence("{}.", say.Clauses(all...)), Aloud: true, Stays: true}
	}).If(slices.ContainsFunc(shapes, func(one drills.Reveal) bool { return slices.Max(append(one.Voicing.Fingers(), 0)) > 0 }))
}

// sayFingers says which finger goes where, in the tuning's order.
func sayFingers(v fret.Voicing) say.Text {
	var stops []say.Text
	fingers := v.Fingers()
	for i, s := range v.Strings {
		if fingers != nil && fingers[i] > 0 {
			stops = append(stops, say.Of("finger {} on the {} string, fret {}", say.Number(fingers[i]), say.String{On: v.Tuning, Number: s.Number}, say.Number(s.Fret)))
		}
	}
	switch {
	case stops != nil:
		return say.Of("{}", say.Clauses(stops...))
	case fingers != nil:
		return noFinger
	}
	return noHand
}

// What is said where no finger is to be told of.
var (
	noFingers = say.Of("Fingers are not told any more.")
	noFinger  = say.Of("no finger is needed")
	noHand    = say.Of("no fingering is known")
)
