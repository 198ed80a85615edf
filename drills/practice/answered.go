package practice

import (
	"sparetone/drills"
	"sparetone/progress"
	"sparetone/theory/say"
)

// Outcome says what came of an answer of a form, with a sign that says it as well. Frets that are right are not said again.
func Outcome(form drills.Form, v drills.Verdict) (sign string, says say.Text) {
	switch {
	case v.Result == progress.Right && form == drills.Frets:
		return "✓", say.Of("Right.")
	case v.Result == progress.Right:
		return "✓", say.Of("Right: {}.", v.Given)
	case v.Result == progress.Partly:
		return "±", say.Of("Partly right: {}; all of it: {}.", v.Given, v.Expected)
	case v.NotKnown:
		return "✗", say.Of("Not known yet: {}.", v.Expected)
	}
	return "✗", say.Of("Not this time: {}, not {}.", v.Expected, v.Given)
}

// NeedsSound is said where nothing can be asked without sound.
const NeedsSound = "what was chosen needs it, and goes on when there is some."
