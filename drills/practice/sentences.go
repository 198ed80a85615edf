package practice

import (
	"sparetone/theory"
	"sparetone/theory/say"
)

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
