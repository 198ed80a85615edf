package clock

import (
	"slices"
	"time"

	"sparetone/progress"
)

// The clock of a machine may be wrong: a battery is empty and it is 1970 again, somebody mistook the year, a clock was
// set by another that was ahead. An answer has no other time than what the clock said, but the order in which answers
// were given is known for certain. So times are held against that order:
//
//	given     1st   2nd   3rd   4th   5th   6th
//	day        1     2   3651    3     1     4
//	believed   ●     ●           ●     ●     ●
//
// Answers given one after the other at times of one day are a run. Of all rows of runs that never go back in time, the
// longest is believed; of two that are as long, the one that was first. Which zone a clock is in, a journey and a winter
// hour make no difference, since days are counted by UTC and a step back of one day counts as none. A file in whose life
// no clock was wrong therefore has no answer that is doubted.
//
// Where a clock comes back into a gap that was leapt over, that is more than one day's word against another's: clocks
// go wrong by themselves and are put right by somebody. Such a run weighs as a further one for every three days leapt
// over, but as no more than sixty further ones. (From judgement: a month's leap outweighs a week of practice, half a
// year's two months. There is no data on how clocks go wrong.)
//
// An answer that is doubted is kept, is exported, and counts as given. It moves no memory and no count by weeks, since
// nobody knows when it was given. With each further answer all is judged anew, so that what was doubted may be believed
// again.

const (
	Slack       = 1   // days that a time may lie before the one before it
	daysAWeight = 3   // days leapt over that weigh as much as one run
	mostWeight  = 60  // runs that the days leapt over weigh at the most
	farAhead    = 365 // days by which a clock is not ahead by chance
)

var (
	// firstTime and LastTime are the ends of the time that can be written down: years of four digits, in any zone.
	firstTime = time.Unix(0, 0).UTC()
	LastTime  = time.Date(9999, time.December, 30, 23, 59, 59, 999e6, time.UTC)
	// FirstSet is when the time begins that a clock may say which somebody has set. Others begin with the year 1970
	// (POSIX), 1980 (the FAT file system and what was made with it) or 2000 (clock chips; common practice, no source).
	FirstSet = time.Date(2001, time.January, 1, 0, 0, 0, 0, time.UTC)
	// firstUse is the year in which this program was first used. A clock that comes back to an earlier time has not
	// been put right.
	firstUse = time.Date(2026, time.January, 1, 0, 0, 0, 0, time.UTC)
)

// Writable returns a time as it can be written down: one outside of that is the end nearest to it.
func Writable(t time.Time) time.Time {
	switch {
	case t.Before(firstTime):
		return firstTime.In(t.Location())
	case t.After(LastTime):
		return LastTime.In(t.Location())
	}
	return t
}

// Dated reports whether a time may be true by itself: somebody has set the clock, and it did not have to be changed to
// be written down.
func Dated(t time.Time) bool { return !t.Before(FirstSet) && t.Before(LastTime) }

// UTCDay returns the day of a moment by UTC, counted from 1970.
func UTCDay(t time.Time) progress.Day { return progress.Day(t.Unix() / (24 * 60 * 60)) }

// Run is answers that were given one after the other, at times of one day.
type Run struct {
	From int64        // number of the first
	Day  progress.Day // by UTC
}

// step is the best row of runs that ends with a run.
type step struct {
	weight int
	before int  // the run before it in the row; -1 if it is the first
	led    bool // it was the best of all when its run was given
}

// believe says which runs, in the order they were given, are believed. The time it takes grows as n log n.
func believe(runs []Run) []bool {
	days := make([]progress.Day, len(runs))
	for i, r := range runs {
		days[i] = r.Day
	}
	slices.Sort(days)
	days = slices.Compact(days)
	steps := make([]step, len(runs))
	// best holds for each day the best row that ends on it or earlier, as far as a binary indexed tree does
	// (Fenwick, Software: Practice and Experience 24(3), 1994).
	best := make([]int, len(days)+1)
	for i := range best {
		best[i] = -1
	}
	better := func(a, b int) int { // rows that end with the runs a and b
		if a < 0 || b >= 0 && (steps[b].weight > steps[a].weight || steps[b].weight == steps[a].weight && b < a) {
			return b
		}
		return a
	}
	upTo := func(day progress.Day) int {
		place, found := slices.BinarySearch(days, day)
		if found {
			place++
		}
		row := -1
		for ; place > 0; place &= place - 1 {
			row = better(row, best[place])
		}
		return row
	}
	leader := -1
	for i, r := range runs {
		s := step{weight: 1, before: upTo(r.Day + Slack)}
		if s.before != leader {
			s.weight = comesBack(runs[:i+1], steps, s.before)
		}
		if s.before >= 0 {
			s.weight += steps[s.before].weight
		}
		s.led = leader < 0 || s.weight > steps[leader].weight
		steps[i] = s
		if s.led {
			leader = i
		}
		place, _ := slices.BinarySearch(days, r.Day)
		for place++; place < len(best); place += place & -place {
			best[place] = better(best[place], i)
		}
	}
	believed := make([]bool, len(runs))
	for i := leader; i >= 0; i = steps[i].before {
		believed[i] = true
	}
	return believed
}

// comesBack returns how much the last run weighs, which goes back before what was believed up to it; before is the run
// that it would follow, -1 if there is none.
func comesBack(runs []Run, steps []step, before int) int {
	last := runs[len(runs)-1].Day
	leapt := 0
	switch {
	case before < 0:
		// The clock was ahead from the first answer on, or it has just stopped for want of a battery.
		if d := int(runs[0].Day - last); d > farAhead && last >= UTCDay(firstUse) {
			leapt = d
		}
	case steps[before].led && before+2 < len(runs):
		leapt = int(runs[before+1].Day - runs[before].Day)
	}
	return 1 + max(0, min(leapt/daysAWeight, mostWeight))
}
