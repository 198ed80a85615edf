package progress

import (
	"time"
)

// present is what a file takes for now, and what follows from that for its answers. The clock is one more witness: where
// it contradicts the answers, either it is doubted or they are.
type present struct {
	clock   time.Time // what the machine's clock says
	doubts  doubts    // the answers that are doubted
	anew    bool      // others than are kept in the file
	doubted bool      // the clock is
	last    moment    // of the last answer that is believed
	ahead   moment    // of the last answer that was believed before, if others are doubted now
}

// moment is when an answer was given.
type moment struct {
	known bool
	at    time.Time
	day   Day // practice day where the student was
}

// now returns the clock's time; where that is doubted, the time of the last answer that is believed.
func (p present) now() time.Time {
	if p.doubted && p.last.known {
		return p.last.at.In(p.clock.Location())
	}
	return p.clock
}

// today returns the practice day.
func (p present) today() Day {
	if p.doubted && p.last.known {
		return p.last.day
	}
	return DayOf(p.clock)
}

// longForm is how a date is written in a sentence.
const longForm = "2 January 2006"

// says says that the clock contradicts the answers, and which of the two is believed.
func (p present) says() string {
	const notCounted = "Until it is set right, answers are kept but do not count."
	switch {
	case p.doubted && p.last.known:
		return p.between(p.last) + ". " + notCounted
	case p.doubted:
		return p.between(moment{}) + ", which cannot be. " + notCounted
	case p.anew:
		return p.between(p.ahead) + ", by a clock that was wrong: such answers are kept but do not count. If it is wrong now, set it right."
	}
	return ""
}

// asks asks whether the clock is right.
func (p present) asks() string {
	if !p.doubted && p.last.known && utcDay(p.clock)-utcDay(p.last.at) > farAhead {
		return p.between(p.last) + ". If that is not so, set the clock right."
	}
	return ""
}

// between says what the clock says, and when the last answer was given, if that is known.
func (p present) between(last moment) string {
	const form = "2 January 2006"
	text := "The clock of this machine says " + p.clock.Format(form)
	if last.known {
		text += ", and the last answer was given on " + last.at.In(p.clock.Location()).Format(form)
	}
	return text
}
