package progress

import (
	"testing"
	"time"
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
		if got := DayOf(c.at).Date().Format(time.DateOnly); got != c.want {
			t.Errorf("%s is of %s, want %s", c.at, got, c.want)
		}
	}
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
		if got := DayOf(evenings[i+1]).Since(DayOf(evenings[i])); got != days {
			t.Errorf("from %s to %s: %d days, want %d", evenings[i], evenings[i+1], got, days)
		}
	}
}

func TestWeeksBefore1970(t *testing.T) {
	for day, week := range map[Day]int{-8: -2, -7: -1, -1: -1, 0: 0, 6: 0, 7: 1} {
		if got := day.Week(); got != week {
			t.Errorf("day %d is of week %d, want %d", day, got, week)
		}
	}
}
