package session

import (
	"time"

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

// TimeLeft says how much of a session's time is left.
func TimeLeft(s *Session) say.Text {
	left, of := s.Left(), say.Count{N: int(s.Length().Minutes() + 0.5), One: "minute", Many: "minutes"}
	if left < time.Minute {
		return say.Of("Less than a minute is left of {}.", of)
	}
	n := int(left.Minutes() + 0.5)
	return say.Of("{} left of {}.", say.Count{N: n, One: "minute is", Many: "minutes are"}, say.Number(of.N))
}
