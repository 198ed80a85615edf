package setting

import (
	"sparetone/synth"
	"sparetone/theory/say"
)

// Wording of this room, beside the facts that go into it. How settings and their choices are called stands in their tables (table.go,
// level.go).

// What is wrong with a value.

func notOneOf(typed string, all []say.Words) error {
	return say.Wrong("{} is not one of: {}", say.Typed(typed), say.Clauses(all...))
}

func notWhole(typed string, least, most int) error {
	return say.Wrong("{} is no whole number from {} to {}", say.Typed(typed), say.Number(least), say.Number(most))
}

func noA4(typed string) error {
	return say.Wrong("{} is no pitch of A4: it lies between {} and {} Hz", say.Typed(typed), say.Number(synth.LowestA4), say.Number(synth.HighestA4))
}

func noSetting(id string) error { return say.Wrong("{} is no setting", say.Typed(id)) }

// What a setting may be.

func sayBetween(low, high int) say.Text {
	return say.Of("{} to {}", say.Number(low), say.Number(high))
}

func sayChoices(all []say.Text) say.Text { return say.Of("{}", say.Clauses(all...)) }

// sayExplained says what a setting does, and what else there is to say of its value.
func sayExplained(about say.Words, more say.Text) say.Text {
	does := say.Sentence("{}", say.Ended(about))
	if more.IsZero() {
		return does
	}
	return say.Of("{} {}", does, more)
}

// Values that have no name of their own.
var (
	sayAnyVoice  = say.Of("another each time")
	sayFindOut   = say.Of("find out in two minutes")
	sayFound     = say.Of("the place that was found")
	sayBeginning = say.Of("the beginning")
)

// sayPlace says where the course begins, by ear and by eye.
func sayPlace(ear, eye say.Text) say.Text {
	return say.Of("By ear from {}, by eye from {}.", ear, eye)
}
