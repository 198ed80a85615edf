package store

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/clock"
	"sparetone/progress/memory"
	"sparetone/progress/plan"
)

func readWhole(t *testing.T, path string) []byte {
	t.Helper()
	bytes, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return bytes
}

// What is made of a clock, by days counted from 4 March 2026, and what is said of it.
func TestWhatIsMadeOfTheClock(t *testing.T) {
	for _, c := range []struct {
		what    string
		days    []int
		clock   int
		now     int // day that it is taken for
		doubted bool
		says    string
	}{
		{"nothing yet", nil, 0, 0, false, ""},
		{"nothing yet, and never set", nil, -20516, -20516, true, "The clock of this machine says 1 January 1970, which cannot be. Until it is set right, answers are kept but do not count."},
		{"the day after", []int{0, 1}, 2, 2, false, ""},
		{"the same day", []int{0, 1}, 1, 1, false, ""},
		{"a day back", []int{0, 1, 2}, 1, 1, false, ""},
		{"two days back", []int{0, 1, 2}, 0, 2, true, "The clock of this machine says 4 March 2026, and the last answer was given on 6 March 2026. Until it is set right, answers are kept but do not count."},
		{"1970", []int{0, 1, 2}, -20516, 2, true, "The clock of this machine says 1 January 1970, and the last answer was given on 6 March 2026. Until it is set right, answers are kept but do not count."},
		{"2019", []int{0, 1, 2}, -2600, 2, true, "The clock of this machine says 20 January 2019, and the last answer was given on 6 March 2026. Until it is set right, answers are kept but do not count."},
		{"the year 12000", []int{0, 1, 2}, 3_642_000, 2, true, "The clock of this machine says 30 December 9999, and the last answer was given on 6 March 2026. Until it is set right, answers are kept but do not count."},
		{"a year on", []int{0, 1}, 366, 366, false, ""},
		{"more than a year on", []int{0, 1}, 367, 367, false, "The clock of this machine says 6 March 2027, and the last answer was given on 5 March 2026. If that is not so, set the clock right."},
		{"right, after it was ahead for the last answers", []int{0, 1, 3650, 3651}, 2, 2, false, "The clock of this machine says 6 March 2026, and the last answer was given on 2 March 2036, by a clock that was wrong: such answers are kept but do not count. If it is wrong now, set it right."},
		{"right, after it was ahead for all answers", []int{3650, 3651}, 2, 2, false, "The clock of this machine says 6 March 2026, and the last answer was given on 2 March 2036, by a clock that was wrong: such answers are kept but do not count. If it is wrong now, set it right."},
		{"1970, after it was 1970 for the last answers", []int{0, 1, -20516, -20516}, -20516, 1, true, "The clock of this machine says 1 January 1970, and the last answer was given on 5 March 2026. Until it is set right, answers are kept but do not count."},
	} {
		f := newClocked(t)
		f.practise(c.days)
		*f.clock = onDay(c.clock)
		got, err := f.Clock()
		if err != nil || got.Doubted != c.doubted || got.Says+got.Asks != c.says || (got.Asks != "") != strings.HasSuffix(c.says, "If that is not so, set the clock right.") || progress.DayOf(got.Now) != progress.DayOf(clock.Writable(onDay(c.now))) {
			t.Errorf("%s: %+v, %v", c.what, got, err)
		}
	}
}

// While the clock is years behind, what is due is what was due on the day of the last answer, and tomorrow what will be on
// the day after. Once it is set right, in the midst of a session, it is the right day again.
func TestAPlannerWhoseClockIsBehind(t *testing.T) {
	right := newClocked(t)
	right.practise(daily(0, 5))
	course := []plan.Candidate{}
	for _, s := range right.standings() {
		course = append(course, plan.Candidate{Item: s.Item, Drill: "d"})
	}
	planned := func(clock time.Time) (*plan.Planner, *memory.Derived) {
		t.Helper()
		*right.clock = clock
		p, known, err := planFor(right.File, course, time.Hour)
		if err != nil {
			t.Fatal(err)
		}
		return p, known
	}
	should, _ := planned(onDay(5))
	for what, clock := range map[string]time.Time{"1970": time.Unix(600, 0), "2019": onDay(-2600), "the year 12000": onDay(3_642_000)} {
		p, known := planned(clock)
		for later := range 3 {
			if later > 0 && what == "the year 12000" {
				break // it is always the last day that can be written
			}
			if got, want := p.Today(clock.AddDate(0, 0, later)), should.Today(onDay(5+later)); got != want {
				t.Errorf("%s, and %d days: %+v, want %+v", what, later, got, want)
			}
		}
		if got, want := p.Today(onDay(40)), should.Today(onDay(40)); got != want {
			t.Errorf("%s, then right: %+v, want %+v", what, got, want)
		}
		if should.Today(onDay(40)) == should.Today(onDay(5)) {
			t.Fatal("nothing comes back")
		}
		pick, ok := p.Next(clock)
		if !ok || pick.Why.Days > 5 {
			t.Errorf("%s: %+v, %v", what, pick, ok)
		}
		// Within the session it is learned from.
		before := known.Memory[pick.Item]
		p.Answered(progress.Answer{Item: pick.Item, Drill: "d", At: clock, Result: progress.Right, Took: time.Second})
		if m := known.Memory[pick.Item]; m.Asked != before.Asked+1 || m.Day != progress.DayOf(onDay(5)) {
			t.Errorf("%s: %+v", what, m)
		}
		if left, sure, err := right.BackIn(pick.Item, clock); sure || left > 0 && sure || err != nil {
			t.Errorf("%s: it comes back in %v, %v", what, left, err)
		}
	}
	for _, s := range course {
		left, known, err := right.BackIn(s.Item, onDay(5))
		if due, _, failed := right.ComesBack(s.Item); !known || err != nil || failed != nil || !onDay(5).Add(left).Equal(due) {
			t.Error(left, known, due, err, failed)
		}
	}
	if _, known, err := right.BackIn("d/never/u", onDay(5)); known || err != nil {
		t.Error(known, err)
	}
	// A clock that was right when the session began and then is not.
	p, _ := planned(onDay(5))
	if got, want := p.Today(time.Unix(600, 0)), should.Today(onDay(5)); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
}

// Copies of days that are still to come, by the clock's word at the time, take no place from those that are not, and a
// return goes to the newest of those.
func TestCopiesOfDaysToCome(t *testing.T) {
	day := func(d int) Copy {
		return Copy{Path: onDay(d).Format(time.DateOnly), At: progress.DayOf(onDay(d)).Date()}
	}
	var copies []Copy
	for _, d := range append([]int{3656, 3655, 3654, 3653, 3652, 3651, 3650}, 9, 8, 7, 6, 5, 4, 3) {
		copies = append(copies, day(d))
	}
	if gone := toGo(copies, onDay(9)); len(gone) > 0 {
		t.Errorf("%v go", gone)
	}
	if got := newestFirst(copies, onDay(9)); got[0].Path != day(9).Path || got[6].Path != day(3).Path || got[7].Path != day(3656).Path {
		t.Errorf("%v", got)
	}
	if got := newestFirst(copies, onDay(3657)); !slices.Equal(got, copies) {
		t.Errorf("%v", got)
	}
	// One of tomorrow is of another time zone.
	if past, toCome := byClock([]Copy{day(10), day(9)}, onDay(9)); len(past) != 2 || len(toCome) != 0 {
		t.Errorf("%v, %v", past, toCome)
	}
	if past, toCome := byClock([]Copy{day(11), day(9)}, onDay(9)); len(past) != 1 || len(toCome) != 1 {
		t.Errorf("%v, %v", past, toCome)
	}
}

// A copy made while the clock was ahead is not what a return goes to once it is right.
func TestARestoreAfterTheClockWasAhead(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	for _, day := range []int{0, 3650, 1} {
		f := openAt(t, path, onDay(day))
		if err := f.Record(progress.Answer{Item: "d/t/u", Drill: "d", At: onDay(day), Result: progress.Right}); err != nil {
			t.Fatal(err)
		}
		f.Close()
		openAt(t, path, onDay(day)).Close() // for the day's copy
	}
	if all := CopiesOf(path); len(all) != 3 || !strings.Contains(all[0].Path, "2036") {
		t.Fatalf("%+v", all)
	}
	got, err := Restore(path, "", clockAt(onDay(2)))
	if err != nil || !strings.HasSuffix(got.Copy, "2026-03-05.db") || got.Answers != 3 {
		t.Errorf("%+v, %v", got, err)
	}
}
