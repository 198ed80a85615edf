package played

import (
	"sparetone/drills"
	"sparetone/drills/neck"
)

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
