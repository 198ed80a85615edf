package memory

import "sparetone/progress"

// recentWeeks is how far back what is weak is judged.
const recentWeeks = 8

// FirstRecentWeek returns the first week that still counts on a day.
func FirstRecentWeek(day progress.Day) int { return day.Week() - recentWeeks + 1 }

// latest returns how the answers to an item of the last weeks came out.
func (d *Derived) latest(item string, day progress.Day) Tally {
	var sum Tally
	for week := FirstRecentWeek(day); week <= day.Week(); week++ {
		t := d.Weeks[WeekOf{item, week}]
		sum.Asked += t.Asked
		sum.Right += t.Right
		sum.Guessed += t.Guessed
	}
	return sum
}

const (
	Enough      = 8    // answers below which nothing is claimed
	hardlyLuck  = 0.01 // chance below which bad luck is no explanation; asked anew with each answer, so less than is usual
	oftenEnough = 0.05 // chance above which guessing is an explanation (common practice, no source)
)

// weak reports whether an item is right less often than it should be, and that by more than bad luck explains: who is
// right with a chance of aim is right so seldom only one time in a hundred. Aim is the share of answers that are
// right, lucky ones among them: of two choices it is reached by knowing seven things of ten and guessing at the rest,
// so a drill in which guessing helps is not called weak sooner than another.
func (t Tally) weak() bool { return t.Asked >= Enough && AtMost(t.Right, t.Asked, Aim) < hardlyLuck }

// AsGuessing reports whether guessing alone explains how many answers were right: it gives as many, or as few, in one
// case of twenty or more. What is answered freely is not guessed.
func (t Tally) AsGuessing() bool {
	if t.Guessed <= 0 {
		return false
	}
	share := min(1, t.Guessed/float64(t.Asked))
	return AtMost(t.Right, t.Asked, share) >= oftenEnough && 1-AtMost(t.Right-1, t.Asked, share) >= oftenEnough
}

// IsWeak reports whether an item was weak in the last weeks.
func (d *Derived) IsWeak(item string, day progress.Day) bool { return d.latest(item, day).weak() }

// TakenFor returns what an item was taken for in the last weeks, and how often.
func (d *Derived) TakenFor(item string, day progress.Day) map[string]int {
	times := map[string]int{}
	for m, n := range d.Mistakes[item] {
		if m.Week >= FirstRecentWeek(day) {
			times[m.TakenFor] += n
		}
	}
	return times
}

// MostTakenFor returns what an item was mostly taken for in the last weeks, and how often; nothing if
// it was only ever once.
func (d *Derived) MostTakenFor(item string, day progress.Day) (other string, times int) {
	for taken, n := range d.TakenFor(item, day) {
		if n > times || n == times && taken < other {
			other, times = taken, n
		}
	}
	if times < 2 {
		return "", 0
	}
	return other, times
}
