package practice

import (
	"sparetone/drills/practice/setting"
	"sparetone/theory/read"
)

// Greeting is one step of the first run.
type Greeting struct {
	Setting string // that is chosen; empty if there is nothing to choose
	Title   string
	About   string
	FindOut bool // beside the choices it is offered to find out
}

// Greetings are the steps of the first run, in order.
var Greetings = []Greeting{
	{"tuning", "What do you play?", "Shapes are drawn for it; strings in pairs, as on a mandolin, count as one. You can change this later, like everything here.", false},
	{"hand", "Which hand do you play with?", "Left-handed players see necks the other way round.", false},
	{"", "Can you hear this?", "It begins quietly; press + until it is comfortable. Without sound, questions for the eye are asked.", false},
	{"level", "How much do you know already?", "What you know is asked later and less; a wrong choice loses nothing. Not sure? A dozen questions find it out, and “I don't know” is an answer.", true},
	{"", "Before you begin", Cautions + " Ten minutes a day do more than an hour a week.", false},
}

// The steps of the first run that are more than a choice.
const (
	StepSound = 2
	StepLevel = 3
	StepLast  = 4
)

// Choices returns the ids of what may be chosen at a step, FindOut among them; nil if there is nothing to choose.
func (g Greeting) Choices() []string {
	if g.Setting == "" {
		return nil
	}
	ids := setting.ByID(g.Setting).Choices()
	if g.FindOut {
		ids = append(ids, setting.FindOut)
	}
	return ids
}

// AsksToFindOut reports whether somebody typed, at a step that offers it, that they want to find out.
func (g Greeting) AsksToFindOut(typed string) bool {
	return g.FindOut && (typed == setting.FindOut || read.Names(typed, setting.ByID(g.Setting).Short(setting.FindOut)))
}
