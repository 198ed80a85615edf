package progress

// recentWeeks is how far back what is weak is judged.
const recentWeeks = 8

// recent returns the first week that still counts on a day.
func recent(day Day) int { return day.week() - recentWeeks + 1 }

// latest returns how the answers to an item of the last weeks came out.
func (d *derived) latest(item string, day Day) Tally {
	var sum Tally
	for week := recent(day); week <= day.week(); week++ {
		t := d.weeks[weekOf{item, week}]
		sum.Asked += t.Asked
		sum.Held += t.Held
	}
	return sum
}

// enough is the number of answers below which nothing is claimed.
const enough = 3

// isWeak reports whether an item is right less often than it should be, and that by more than chance
// explains: even the upper end of the 95 % interval is below aim.
func (d *derived) isWeak(item string, day Day) bool {
	t := d.latest(item, day)
	_, high := wilson(t.Held, t.Asked)
	return t.Asked >= enough && high < aim
}

// takenFor returns what an item was taken for in the last weeks, and how often.
func (d *derived) takenFor(item string, day Day) map[string]int {
	times := map[string]int{}
	for m, n := range d.mistakes[item] {
		if m.week >= recent(day) {
			times[m.takenFor] += n
		}
	}
	return times
}

// mostTakenFor returns what an item was mostly taken for in the last weeks, and how often; nothing if
// it was only ever once.
func (d *derived) mostTakenFor(item string, day Day) (other string, times int) {
	for taken, n := range d.takenFor(item, day) {
		if n > times || n == times && taken < other {
			other, times = taken, n
		}
	}
	if times < 2 {
		return "", 0
	}
	return other, times
}
