package page

import (
	"slices"

	"sparetone/drills"
	"sparetone/theory/say"
)

// TellsFingers is the act that writes in necks which finger stops what, or leaves it out again. Lines of text say it of the shapes that the
// page has.
func (w *Walk) TellsFingers(shapes ...drills.Reveal) Act {
	return Called("fingers", func(string) Next {
		w.Fingers = !w.Fingers
		if !w.Fingers {
			return Next{Said: noFingers, OnlyInLines: true}
		}
		var all []say.Text
		for _, one := range shapes {
			held := sayFingers(one.Voicing)
			if !one.Caption.IsZero() {
				held = say.Of("{}: {}", one.Caption, held)
			}
			all = append(all, held)
		}
		return Next{Said: say.Sentence("{}.", say.Clauses(all...)), OnlyInLines: true, Stays: true}
	}).If(slices.ContainsFunc(shapes, func(one drills.Reveal) bool { return slices.Max(append(one.Voicing.Fingers(), 0)) > 0 }))
}
