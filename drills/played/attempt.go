package played

import (
	"sparetone/drills"
	"sparetone/drills/neck"
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
	Anew   bool       // something else is listened for from now on
	Seen   bool       // what it says is for the eye alone: strings are being plucked
	Again  bool       // nothing came: what was asked for stands
	Shape  fret.Shape // the shape that was heard; nil if none was asked for
	Given  []string   // of each string the degree that it was plucked for so far, as it is typed; nil where none is asked for
}

// New returns an attempt at a question on an instrument, for A4 in Hz; nil if it cannot be answered by playing.
func New(q *drills.Question, on *neck.Instrument, a4 float64) Attempt {
	switch {
	case q.Form == drills.Frets:
		return newAsked(q, on, a4)
	case q.Form == drills.Tones:
		return newTones(q, a4)
	case q.Form == drills.Notes:
		return newNotes(q, on, a4)
	case q.Drill == "interval-ear":
		return newInterval(q, on, a4)
	case q.Drill == "spell":
		return newTone(q, on, a4)
	}
	return nil
}

// right reports whether a typed answer is right.
func right(q *drills.Question, typed string) bool {
	result, err := q.Result(typed)
	return err == nil && result == progress.Right
}

// common is what becomes of what says nothing about strings or notes, and whether it is so.
func common(h Heard) (Came, bool) {
	switch {
	case h.Noisy:
		return Came{Says: sayNoisy, Again: true}, true
	case h.Nothing:
		return Came{Says: sayNothing, Again: true}, true
	}
	return Came{}, false
}
