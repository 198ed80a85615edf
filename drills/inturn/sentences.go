package inturn

import (
	"slices"

	"sparetone/theory/say"
)

// Wording of this room, beside the facts that go into it.

// YourAnswer says of what sounds or is shown that it was answered.
func YourAnswer(what say.Text) say.Text { return say.Of("your answer: {}", what) }

// What is heard by itself after an answer, before it is heard.
var (
	sayBothHeard = say.Of("You hear it, then your answer.")
	sayOnceMore  = say.Of("You hear it once more.")
)

// sayTwoHeard names the one sound that was right and the one that was answered.
func sayTwoHeard(right, given say.Text) say.Text {
	return sayHeard([]say.Text{right, YourAnswer(given)})
}

// sayHeard names sounds, one or more, in the order in which they are heard.
func sayHeard(names []say.Text) say.Text {
	one := names[0]
	if slices.ContainsFunc(names, func(n say.Text) bool { return !n.Equal(one) }) {
		return say.Of("You hear, in turn: {}.", say.Clauses(names...))
	}
	if len(names) > 1 {
		return say.Of("You hear {}: {}.", say.Count{N: len(names), One: "once", Many: "times"}, one)
	}
	return say.Of("You hear: {}.", one)
}
