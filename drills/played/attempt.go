package played

import (
	"sparetone/drills"
	"sparetone/progress"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Attempt is something being played for a question, or after a picture. What it listens for changes with what was heard: after each Take
// that says so, Listens is to be asked again.
type Attempt interface {
	// Listens returns what is listened for now.
	Listens() Listening
	// Asks says what is to be played now.
	Asks() say.Text
	// Take takes what was heard.
	Take(h Heard) Came
}

// Came is what came of something heard.
type Came struct {
	Says   say.Text   // a sentence on it that tells nothing of what would be right; zero if there is nothing to say
	Amiss  say.Text   // what is not as it should be, for after it counts; zero if nothing is
	Answer string     // the whole answer, as it would be typed; empty while there is none
	Right  bool       // it is surely right: it may count at once. Else it counts when it was confirmed
	InTurn bool       // the strings of the answer were plucked one after another, each heard by itself
	Anew   bool       // something else is listened for from now on
	Seen   bool       // what it says is for the eye alone: strings are being plucked
	Again  bool       // nothing came: what was asked for stands
	Shape  fret.Shape // the shape that was heard; nil if none was asked for
	Given  []string   // of each string the degree that it was plucked for so far, as it is typed; nil where none is asked for
}

// right reports whether a typed answer is right.
func right(q *drills.Question, typed string) bool {
	result, err := q.Result(typed)
	return err == nil && result == progress.Right
}

// nothingToMark returns what came of what says nothing about strings or notes; false if it does say something.
func nothingToMark(h Heard) (Came, bool) {
	switch {
	case h.Noisy:
		return Came{Says: sayNoisy, Again: true}, true
	case h.Nothing:
		return Came{Says: sayNothing, Again: true}, true
	}
	return Came{}, false
}
