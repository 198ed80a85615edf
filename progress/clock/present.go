package clock

import (
	"time"

	"sparetone/progress"
)

// Present is what a file takes for now, and what follows from that for its answers. The clock is one more witness: where
// it contradicts the answers, either it is doubted or they are.
type Present struct {
	Clock   time.Time // what the machine's clock says
	Doubts  Doubts    // the answers that are doubted
	Anew    bool      // others than are kept in the file
	Doubted bool      // the clock is
	Last    Moment    // of the last answer that is believed
	Ahead   Moment    // of the last answer that was believed before, if others are doubted now
}

// Moment is when an answer was given.
type Moment struct {
	Known bool
	At    time.Time
	Day   progress.Day // practice day where the student was
}

// Now returns the clock's time; where that is doubted, the time of the last answer that is believed.
func (p Present) Now() time.Time {
	if p.Doubted && p.Last.Known {
		return p.Last.At.In(p.Clock.Location())
	}
	return p.Clock
}

// Today returns the practice day.
func (p Present) Today() progress.Day {
	if p.Doubted && p.Last.Known {
		return p.Last.Day
	}
	return progress.DayOf(p.Clock)
}

// longForm is how a date is written in a sentence.
const longForm = "2 January 2006"

// Says says that the clock contradicts the answers, and which of the two is believed.
func (p Present) Says() string {
	const notCounted = "Until it is set right, answers are kept but do not count."
	switch {
	case p.Doubted && p.Last.Known:
		return p.between(p.Last) + ". " + notCounted
	case p.Doubted:
		return p.between(Moment{}) + ", which cannot be. " + notCounted
	case p.Anew:
		return p.between(p.Ahead) + ", by a clock that was wrong: such answers are kept but do not count. If it is wrong now, set it right."
	}
	return ""
}

// Asks asks whether the clock is right.
func (p Present) Asks() string {
	if !p.Doubted && p.Last.Known && UTCDay(p.Clock)-UTCDay(p.Last.At) > farAhead {
		return p.between(p.Last) + ". If that is not so, set the clock right."
	}
	return ""
}

// between says what the clock says, and when the last answer was given, if that is known.
func (p Present) between(last Moment) string {
	const form = "2 January 2006"
	text := "The clock of this machine says " + p.Clock.Format(form)
	if last.Known {
		text += ", and the last answer was given on " + last.At.In(p.Clock.Location()).Format(form)
	}
	return text
}
