// Package given has answers that were given on practice days, for tests of what is remembered and of what is planned. The program does
// not use it.
package given

import (
	"time"

	"sparetone/progress"
)

// Noon is at noon on a practice day.
func Noon(day progress.Day) time.Time { return day.Begins(time.UTC).Add(8 * time.Hour) }

// Answer is an answer to an item of the drill d, given at noon of a practice day, in four seconds.
func Answer(item string, day progress.Day, r progress.Result) progress.Answer {
	return progress.Answer{Item: item, Drill: "d", At: Noon(day), Result: r, Took: 4 * time.Second}
}

// TakenFor is a wrong answer that takes an item for another.
func TakenFor(item, other string, day progress.Day) progress.Answer {
	a := Answer(item, day, progress.Wrong)
	a.TakenFor = other
	return a
}

// To adds answers to what is derived, which is a memory.Derived, each on the day on which it was given. It returns that.
func To[D interface {
	Add(progress.Answer, progress.Day)
}](derived D, answers ...progress.Answer) D {
	for _, a := range answers {
		derived.Add(a, progress.DayOf(a.At))
	}
	return derived
}
