package practice

import (
	"time"

	"sparetone/drills"
	"sparetone/progress"
	"sparetone/theory/say"
)

// WhyNow says why a question is asked now, before it is answered.
func WhyNow(asked *Asked) say.Text {
	if asked.Tells {
		return say.Of("Why it is asked now is told after the answer: before it, that could give the answer away.")
	}
	return WhyText(asked)
}

// WhyText says why a question is asked now, after it was answered.
func WhyText(asked *Asked) say.Text { return say.Of("Why now: {}.", asked.Why) }

// Outcome says what came of an answer, with a sign that says it as well.
func Outcome(v drills.Verdict) (sign string, says say.Text) {
	switch {
	case v.Result == progress.Right:
		return "✓", say.Of("Right: {}.", v.Given)
	case v.Result == progress.Partly:
		return "±", say.Of("Partly right: {}; all of it: {}.", v.Given, v.Expected)
	case v.NotKnown:
		return "✗", say.Of("Not known yet: {}.", v.Expected)
	}
	return "✗", say.Of("Not this time: {}, not {}.", v.Expected, v.Given)
}

// TimeLeft says how much of a session's time is left.
func TimeLeft(s *Session) say.Text {
	left, of := s.Left(), say.Count{N: int(s.Length().Minutes() + 0.5), One: "minute", Many: "minutes"}
	if left < time.Minute {
		return say.Of("Less than a minute is left of {}.", of)
	}
	n := int(left.Minutes() + 0.5)
	return say.Of("{} left of {}.", say.Count{N: n, One: "minute is", Many: "minutes are"}, say.Number(of.N))
}

// NeedsSound is said where nothing can be asked without sound.
const NeedsSound = "what was chosen needs it, and goes on when there is some."
