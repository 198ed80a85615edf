package store

import (
	"slices"
	"time"

	"sparetone/progress/clock"
)

// A clock that was ahead leaves copies with dates that are still to come. They are not the newest, and take no place
// from those of the days that are.

// byClock parts copies into those up to a day after a moment and those that are said to be of later.
func byClock(copies []Copy, now time.Time) (past, toCome []Copy) {
	for _, c := range copies {
		if c.At.After(now.AddDate(0, 0, clock.Slack)) {
			toCome = append(toCome, c)
		} else {
			past = append(past, c)
		}
	}
	return past, toCome
}

// newestFirst orders copies, latest first, so that those that are said to be of later than a moment come last.
func newestFirst(copies []Copy, now time.Time) []Copy {
	past, toCome := byClock(copies, now)
	return slices.Concat(past, toCome)
}

// toGo returns those of the copies, latest first, that are to go.
func toGo(copies []Copy, now time.Time) []Copy {
	past, toCome := byClock(copies, now)
	return slices.Concat(tooOld(past), tooOld(toCome))
}
