package asking

import (
	"sparetone/drills"
	"sparetone/drills/practice/session"
	"sparetone/theory/say"
)

// What is said of questions, and what comes before and after them.

// What is said where something has to be done first, or cannot be.
var (
	moveFirst    = say.Of("Move one string first.")
	fingersFirst = say.Of("Set your fingers first; 0 is an open string.")
	degreesFirst = say.Of("Every string that sounds needs a degree, such as R, 3, 5, b7 or 9.")
	notHeardYet  = say.Of("It was not heard yet: space tries the sound again.")
	waiting      = say.Of("Waiting for the sound device; space tries again.")
	timeIsUp     = say.Of("The time is up.")
)

// What is said where enter is pressed and nothing is there yet.
var (
	typeFirst   = say.Of("Type an answer first; esc, then d, if you don't know it.")
	chooseFirst = say.Of("Choose first: press the number before an answer.")
)

// askQuestion says what is to be typed.
func askQuestion(asked *session.Asked, typing bool) string {
	switch {
	case typing:
		return "Type your answer."
	case asked.Form != drills.Choose:
		return sayTyping(asked).Aloud()
	case asked.Number == 1:
		return "Type a number. help says what else can be typed."
	}
	return ""
}

// leadQuestion begins the help of a question.
func leadQuestion(asked *session.Asked, typing bool) string {
	switch {
	case asked.Form != drills.Choose:
		return sayTyping(asked).Aloud()
	case typing:
		return "Type your answer."
	}
	return "Answer with a number or in words."
}

// After an answer.
var (
	askOnward = "An empty line goes on; why says more."
	goesOn    = say.Of("It goes on by itself; a key makes it wait.")
	goesAloud = say.Of("It goes on by itself; a word makes it wait.")
)

// newTo says what is to be learned of a thing that is called the same in several drills.
var newTo = map[string]string{"shape-name": "to be known by its shape", "shape-tones": "string by string", "build": "to be held"}

// somethingNew stands above what is shown before a drill asks it.
func somethingNew(drill string) say.Text {
	if to, ok := newTo[drill]; ok {
		return say.Of("Something new, {}:", say.Words(to))
	}
	return say.Of("Something new, before it is asked:")
}

// sayNew names in lines of text what is shown before it is asked.
func sayNew(drill string, name say.Text) say.Text {
	if to, ok := newTo[drill]; ok {
		return say.Of("Something new, {}: {}.", say.Words(to), name)
	}
	return say.Of("Something new: {}.", name)
}

// moreShapes stands above shapes that were not shown yet, of what was asked before.
var moreShapes = say.Of("More shapes, before they are asked:")

// sayMoreShapes says the same in lines of text.
func sayMoreShapes(name say.Text) say.Text { return say.Of("More shapes: {}.", name) }

// sayRow says what is heard of a row of chords, before it is heard.
func sayRow(chords []say.Text) say.Text {
	return say.Of("You hear the key, then the row: {}.", say.Commas(chords...))
}

// sayAsAnswer says what the answer is to what is heard and seen there, or within a key and chord.
func sayAsAnswer(within, answer say.Text) say.Text {
	if within.IsZero() {
		return say.Of("Here the answer is: {}.", answer)
	}
	return say.Of("{} the answer is: {}.", within, answer)
}

// howNecksAreDrawn is said with the first shape that shows.
var howNecksAreDrawn = say.Of("Upright lines are strings, dots fingers, rings open strings; a double line is the neck's top, x is silent.")

// sayHowFretsAreSaid is said in lines of text before the first shape that is told by its frets.
func sayHowFretsAreSaid(first, last say.String) say.Text {
	return say.Of("Frets are said string by string, from the {} string to the {} string: 0 is open, x is not played.", first, last)
}

// sayBeside says what a thing is told from.
func sayBeside(other say.Text) say.Text { return say.Of("To be told from: {}.", other) }

// sayNot says what the answer is not, after what it is.
func sayNot(other say.Text) say.Text { return say.Of("And not: {}.", other) }

// What is said of answers that are played.
var (
	countsSoon   = say.Of("It counts in a moment.")
	askStruck    = say.Of("Is that what you played? Enter counts it. If not, play it once more.")
	askPlayed    = say.Of("Is that what you played? Enter counts it, or the same once more.")
	askDenied    = say.Of("You took that back before. Enter counts it, and nothing else does.")
	sayTakenBack = say.Of("Taken back.")
	sayGone      = say.Of("Taken back: all that is kept is that you took it back.")
	sayNoAnswer  = say.Of("What was heard is no answer here.")
)

// leadPlayed begins the help where an answer was heard.
const leadPlayed = "This was heard, and does not count yet."

// sayHeard says which answer was heard.
func sayHeard(answer say.Text) say.Text { return say.Of("I heard {}.", answer) }

// What is said where a shape can be heard.
var (
	askShape   = say.Of("Which shape do you want to hear?")
	aboutShape = say.Of("A fret for each string, such as 0003.")
)

// sayBoth names two things that are told from each other.
func sayBoth(one, other say.Text) say.Text { return say.Of("{} and {}", one, other) }

// sayQuestion asks in lines of text.
func sayQuestion(asked *session.Asked) say.Text {
	return say.Of("Question {}. {}", say.Number(asked.Number), asked.Prompt)
}

// sayTypingSeen says on the screen what is to be typed, and what to press where nothing can be: d would be typed.
func sayTypingSeen(asked *session.Asked) say.Text {
	return say.Of("Type {}; esc, then d, if you don't know them.", asked.Typing())
}

// sayTyping says what is to be typed.
func sayTyping(asked *session.Asked) say.Text { return say.Of("Type {}.", asked.Typing()) }

// askStopping asks whether a practice is to end.
var askStopping = say.Of("End this practice here?")

// sayAnswered says how many answers are kept already.
func sayAnswered(n int) say.Text {
	if n == 0 {
		return say.Of("Nothing is answered yet.")
	}
	return say.Of("{} kept; the rest comes another time.", say.Count{N: n, One: "answer is", Many: "answers are"})
}
