package practice

// Greeting is one step of the first run.
type Greeting struct {
	Setting string // that is chosen; empty if there is nothing to choose
	Title   string
	About   string
}

// Greetings are the steps of the first run, in order.
var Greetings = []Greeting{
	{"tuning", "What do you play?", "Shapes are drawn for it. You can change this later, like everything here."},
	{"hand", "Which hand do you play with?", "Left-handed players see necks the other way round."},
	{"", "Can you hear this?", "It begins quietly; press + until it is comfortable. Without sound, questions for the eye are asked."},
	{"level", "How much do you know already?", "What you know comes later and seldom; a wrong guess loses nothing. Not sure? A dozen questions find it out, and “I don't know” is an answer."},
	{"", "Before you begin", Cautions + " Ten minutes a day do more than an hour a week."},
}

// The steps of the first run that are more than a choice.
const (
	StepSound = 2
	StepLevel = 3
	StepLast  = 4
)

// FindOut is the choice to find out how much is known.
const FindOut = "find out in two minutes"
