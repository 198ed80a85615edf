package practice

import (
	"sparetone/drills"
	"sparetone/progress"
)

// WhyNow says why a question is asked now, before it is answered.
func WhyNow(asked *Asked) string {
	if asked.Tells {
		return "Why it is asked now is told after the answer: before it, that could give the answer away."
	}
	return "Why now: " + asked.Why + "."
}

// Outcome says what came of an answer, in a word and a sign before anything else.
func Outcome(v drills.Verdict) string {
	switch v.Result {
	case progress.Right:
		return "✓ Right: " + v.Given + "."
	case progress.Partly:
		return "± Partly right: " + v.Given + "; all of it: " + v.Expected + "."
	}
	if v.Given == drills.Unknown {
		return "✗ Not known yet: " + v.Expected + "."
	}
	return "✗ Not this time: " + v.Expected + ", not " + v.Given + "."
}

// NeedsSound is said where nothing can be asked without sound.
const NeedsSound = "what was chosen needs it, and goes on when there is some."
