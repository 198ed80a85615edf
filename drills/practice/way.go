package practice

import (
	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/neck"
	"sparetone/theory/say"
)

// Way is a way to practise: a part of what today's practice is.
type Way struct {
	Title  say.Text      // zero for all of practice
	Drills []string      // only these; nil is all
	Course course.Course // nil is the practice's own
	Silent bool          // by eye only
	Hold   *neck.Hold    // what its questions are held to; nil holds nothing back
}

// The ways that are always there, beside today's practice, which is the zero way.
var (
	ByEar = Way{Title: say.Of("by ear only"), Drills: drillIDs(true)}
	ByEye = Way{Title: say.Of("by eye only"), Silent: true}
)

// waysOf are the ways that may be chosen for good, by the id of the choice.
var waysOf = map[string]Way{"ear": ByEar, "eye": ByEye}

// isWhole reports whether a way is all of practice.
func (w Way) isWhole() bool {
	return w.Title.IsZero() && w.Drills == nil && w.Course == nil && !w.Silent && w.Hold == nil
}

// drillIDs lists the drills that need ears, or those that do not.
func drillIDs(ears bool) []string {
	var out []string
	for _, d := range catalogue.All() {
		if d.About().Ears == ears {
			out = append(out, d.About().ID)
		}
	}
	return out
}

// OneDrill is practising one drill, all of it.
func OneDrill(d drills.Drill) Way {
	return Way{Title: say.Of(d.About().Title), Drills: []string{d.About().ID}}
}

// Through is practising some items only.
func Through(title say.Text, items ...string) Way {
	return Way{Title: title, Course: course.Only(items)}
}

// OneStep is practising one step of the course.
func OneStep(s course.Step) Way {
	s.RestsOn = nil
	return Way{Title: say.Of("{}", say.Foreign(s.Name())), Course: course.Course{s}}
}
