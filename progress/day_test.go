package progress

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

func in(t testing.TB, name string) *time.Location {
	t.Helper()
	l, err := time.LoadLocation(name)
	if err != nil {
		t.Skip("no time zones here:", err)
	}
	return l
}

func TestAPracticeDayEndsAtFourInTheMorning(t *testing.T) {
	berlin, kiritimati, honolulu := in(t, "Europe/Berlin"), in(t, "Pacific/Kiritimati"), in(t, "Pacific/Honolulu")
	for _, c := range []struct {
		at   time.Time
		want string
	}{
		{time.Date(2026, 3, 4, 3, 59, 59, 0, berlin), "2026-03-03"},
		{time.Date(2026, 3, 4, 4, 0, 0, 0, berlin), "2026-03-04"},
		{time.Date(2026, 3, 4, 23, 59, 0, 0, berlin), "2026-03-04"},
		{time.Date(2026, 1, 1, 2, 0, 0, 0, berlin), "2025-12-31"},
		// Clocks go from 2 to 3 on 29 March and back from 3 to 2 on 25 October.
		{time.Date(2026, 3, 29, 3, 30, 0, 0, berlin), "2026-03-28"},
		{time.Date(2026, 3, 29, 4, 0, 0, 0, berlin), "2026-03-29"},
		{time.Date(2026, 10, 25, 0, 30, 0, 0, time.UTC).In(berlin), "2026-10-24"},
		{time.Date(2026, 10, 25, 1, 30, 0, 0, time.UTC).In(berlin), "2026-10-24"},
		// One moment, two days.
		{time.Date(2026, 3, 4, 12, 0, 0, 0, time.UTC).In(kiritimati), "2026-03-04"},
		{time.Date(2026, 3, 4, 12, 0, 0, 0, time.UTC).In(honolulu), "2026-03-03"},
	} {
		if got := DayOf(c.at).Date().Format(dateForm); got != c.want {
			t.Errorf("%s is of %s, want %s", c.at, got, c.want)
		}
	}
}

func TestADayBeginsOnItself(t *testing.T) {
	zones := []*time.Location{time.UTC, in(t, "Europe/Berlin"), in(t, "Asia/Kathmandu"), in(t, "America/Sao_Paulo"), in(t, "Australia/Lord_Howe")}
	rapid.Check(t, func(t *rapid.T) {
		zone := rapid.SampledFrom(zones).Draw(t, "zone")
		day := Day(rapid.IntRange(0, 40_000).Draw(t, "day"))
		begins := day.Begins(zone)
		if got := DayOf(begins); got != day {
			t.Errorf("%s is of day %d, want %d", begins, got, day)
		}
		if got := DayOf(begins.Add(-time.Second)); got != day-1 {
			t.Errorf("a second before %s is day %d, want %d", begins, got, day-1)
		}
	})
}

// Whatever the clock does between answers, nothing goes below nothing and no day is lost: the item
// is due again, at the latest, a day after it was last seen.
func TestClocksThatLeap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := newDerived(DefaultWeights)
		at := evening
		for range rapid.IntRange(1, 30).Draw(t, "answers") {
			at = at.Add(time.Duration(rapid.IntRange(-400*24, 400*24).Draw(t, "hours")) * time.Hour)
			d.add(Answer{Item: "i", Drill: "d", At: at, Result: Result(rapid.IntRange(1, 3).Draw(t, "result"))}, DayOf(at))
			m := d.memory["i"]
			if !(m.Stability >= leastStability && m.Stability <= mostStability && m.Difficulty >= 1 && m.Difficulty <= 10) {
				t.Fatalf("%+v", m)
			}
			if m.Due <= m.Day || m.Due > m.Day+longestRest {
				t.Fatalf("asked on day %d, due on day %d", m.Day, m.Due)
			}
			if c := m.chance(&d.weights, m.Day-1000); c != 1 {
				t.Fatalf("a chance of %v before it was asked", c)
			}
			if !m.isDue(m.Day - 2) {
				t.Fatal("asked in the future, and not due now")
			}
			if m.isDue(m.Day) {
				t.Fatal("due on the day it was asked")
			}
		}
	})
}

func TestAWinterHourAndAJourneyLoseNoDay(t *testing.T) {
	berlin, tokyo, lima := in(t, "Europe/Berlin"), in(t, "Asia/Tokyo"), in(t, "America/Lima")
	evenings := []time.Time{
		time.Date(2026, 10, 24, 23, 30, 0, 0, berlin),
		time.Date(2026, 10, 25, 23, 30, 0, 0, berlin), // 25 hours later
		time.Date(2026, 10, 26, 20, 0, 0, 0, tokyo),
		time.Date(2026, 10, 27, 20, 0, 0, 0, tokyo),
		time.Date(2026, 10, 27, 20, 0, 0, 0, lima), // the same date again, 14 hours later
		time.Date(2026, 10, 28, 20, 0, 0, 0, lima),
	}
	want := []int{1, 1, 1, 0, 1}
	for i, days := range want {
		if got := DayOf(evenings[i+1]).since(DayOf(evenings[i])); got != days {
			t.Errorf("from %s to %s: %d days, want %d", evenings[i], evenings[i+1], got, days)
		}
	}
}
