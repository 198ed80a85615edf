package practice

import (
	"sparetone/progress"
	"sparetone/theory"
	"sparetone/theory/say"
)

// SayTakenBack says how much of what was played or sung was taken back; zero where nothing was.
func SayTakenBack(t progress.TakenBack) say.Text {
	heard := say.Count{N: t.Heard, One: "answer that was heard", Many: "answers that were heard"}
	counted := say.Count{N: t.Counted, One: "answer that had counted", Many: "answers that had counted"}
	switch {
	case t.IsZero():
		return say.Text{}
	case t.Counted == 0:
		return say.Of("Taken back: {}.", heard)
	case t.Heard == 0:
		return say.Of("Taken back: {}.", counted)
	}
	return say.Of("Taken back: {}, {}.", heard, counted)
}

// sayLegend says what degrees mean, from the root on: R is the root; ♭3 is the minor third.
func sayLegend(tones []theory.Interval) say.Text {
	var each []say.Text
	for _, t := range tones {
		each = append(each, say.Of("{} is {}", say.Degree(t), say.Role(t)))
	}
	if each == nil {
		return say.Text{}
	}
	return say.Sentence("{}.", say.Clauses(each...))
}
