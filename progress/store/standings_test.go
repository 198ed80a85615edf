package store

import (
	"math"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/memory"
)

func TestNothingIsClaimedBeforeEightAnswers(t *testing.T) {
	f := inMemory(t, evening)
	miss := progress.Answer{Item: "d/dominant/u", Drill: "d", At: evening, Result: progress.Wrong, Choices: 2, TakenFor: "d/major/u"}
	for n := 1; n <= 9; n++ {
		if err := f.Record(miss); err != nil {
			t.Fatal(err)
		}
		all, err := f.Standings()
		if err != nil {
			t.Fatal(err)
		}
		if weak := n >= 8; len(all) != 1 || all[0].Weak != weak || all[0].Taken[0].Claimed() != weak || all[0].Taken[0].Times != n {
			t.Errorf("after %d misses: %+v", n, all)
		}
	}
	// Nine weeks later it is forgiven, whatever comes of it then.
	f.now = clockAt(evening.AddDate(0, 0, 63))
	all, err := f.Standings()
	if err != nil || all[0].Weak || len(all[0].Taken) > 0 || len(all[0].Weeks) != 1 || all[0].Asked != 9 {
		t.Errorf("%+v, %v", all, err)
	}
}

// How well something is known today, or where it was asked today tomorrow.
func TestAStandingOfTodayIsForTomorrow(t *testing.T) {
	f := inMemory(t, evening)
	for item, at := range map[string]time.Time{"d/today/u": evening, "d/before/u": evening.AddDate(0, 0, -3)} {
		if err := f.Record(progress.Answer{Item: item, Drill: "d", At: at, Result: progress.Right}); err != nil {
			t.Fatal(err)
		}
	}
	all, err := f.Standings()
	if err != nil {
		t.Fatal(err)
	}
	w := memory.StartWeights
	for _, s := range all {
		days := map[string]float64{"d/today/u": 1, "d/before/u": 3}[s.Item]
		if want := 0.92 * w.Retrievability(w.First(memory.Firm), days); math.Abs(s.Chance-want) > 1e-12 {
			t.Errorf("%s: right with %v, want %v", s.Item, s.Chance, want)
		}
		begins := s.Weeks[0].Begins
		if begins.Weekday() != time.Thursday || begins.After(evening) || len(s.Weeks) != 1 || evening.Sub(begins) > 14*24*time.Hour {
			t.Errorf("%s: weeks %v", s.Item, s.Weeks)
		}
	}
}
