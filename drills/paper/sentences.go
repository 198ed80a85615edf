package paper

import (
	"sparetone/drills/neck"
	"sparetone/theory/say"
)

// Wording of this room, beside the facts that go into it.

// nothingOfDrill is the error where a drill, by its id, asks nothing on an instrument.
func nothingOfDrill(id string, on *neck.Instrument) error {
	return say.Wrong("{} has nothing to ask on {}", say.Foreign(id), say.Foreign(on.Tuning.Name))
}

// nothingOfLesson is the error where a lesson asks nothing on an instrument.
func nothingOfLesson(on *neck.Instrument) error {
	return say.Wrong("the lesson has nothing to ask on {}", say.Foreign(on.Tuning.Name))
}
