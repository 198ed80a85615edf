package memory

import (
	"testing"
	"time"

	"sparetone/progress"

	"pgregory.net/rapid"
)

// Whatever the clock does between answers, nothing goes below nothing and no day is lost: the item
// is due again, at the latest, a day after it was last seen.
func TestClocksThatLeap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := NewDerived(DefaultWeights)
		at := evening
		for range rapid.IntRange(1, 30).Draw(t, "answers") {
			at = at.Add(time.Duration(rapid.IntRange(-400*24, 400*24).Draw(t, "hours")) * time.Hour)
			d.Add(progress.Answer{Item: "i", Drill: "d", At: at, Result: progress.Result(rapid.IntRange(1, 3).Draw(t, "result"))}, progress.DayOf(at))
			m := d.Memory["i"]
			if !(m.Stability >= leastStability && m.Stability <= mostStability && m.Difficulty >= 1 && m.Difficulty <= 10) {
				t.Fatalf("%+v", m)
			}
			if m.Due <= m.Day || m.Due > m.Day+longestRest {
				t.Fatalf("asked on day %d, due on day %d", m.Day, m.Due)
			}
			if c := m.Knows(&d.Weights, m.Day-1000); c != 1 {
				t.Fatalf("a chance of %v before it was asked", c)
			}
			if !m.IsDue(m.Day - 2) {
				t.Fatal("asked in the future, and not due now")
			}
			if m.IsDue(m.Day) {
				t.Fatal("due on the day it was asked")
			}
		}
	})
}

func TestADayBeginsOnItself(t *testing.T) {
	zones := []*time.Location{time.UTC, in(t, "Europe/Berlin"), in(t, "Asia/Kathmandu"), in(t, "America/Sao_Paulo"), in(t, "Australia/Lord_Howe")}
	rapid.Check(t, func(t *rapid.T) {
		zone := rapid.SampledFrom(zones).Draw(t, "zone")
		day := progress.Day(rapid.IntRange(0, 40_000).Draw(t, "day"))
		begins := day.Begins(zone)
		if got := progress.DayOf(begins); got != day {
			t.Errorf("%s is of day %d, want %d", begins, got, day)
		}
		if got := progress.DayOf(begins.Add(-time.Second)); got != day-1 {
			t.Errorf("a second before %s is day %d, want %d", begins, got, day-1)
		}
	})
}

// evening is a Wednesday at half past six, somewhere west of Greenwich.
var evening = time.Date(2026, 3, 4, 18, 30, 0, 0, time.FixedZone("UTC-5", -5*60*60))

// in returns a time zone.
func in(t testing.TB, name string) *time.Location {
	t.Helper()
	l, err := time.LoadLocation(name)
	if err != nil {
		t.Skip("no time zones here:", err)
	}
	return l
}
