package memory

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"sparetone/progress"
)

// What is known is listed by its chance of being right, the lowest first, and what is alike by name; what an item was taken
// for, the most frequent first; its weeks in their order.
func TestStandingsAreInOrder(t *testing.T) {
	d := NewDerived(DefaultWeights)
	begin := time.Date(2026, 3, 2, 18, 0, 0, 0, time.UTC) // a Monday
	answer := func(item string, day int, result progress.Result, takenFor string) {
		at := begin.AddDate(0, 0, day)
		d.Add(progress.Answer{Session: fmt.Sprint(day), Item: item, Drill: "d", At: at, Result: result, TakenFor: takenFor, Took: time.Second, Choices: 4}, progress.DayOf(at))
	}
	for _, item := range []string{"g", "c", "e", "a", "f", "b", "d"} {
		answer(item, 14, progress.Right, "")
	}
	for _, day := range []int{0, 7, 14} { // three weeks
		answer("known", day, progress.Right, "")
	}
	for _, other := range []string{"b", "a", "c", "c", "d"} {
		answer("missed", 14, progress.Wrong, other)
	}
	all := d.Standings(map[string]string{"a": "d"}, progress.DayOf(begin.AddDate(0, 0, 15)), time.UTC)
	var items []string
	for _, s := range all {
		items = append(items, s.Item)
	}
	if want := []string{"missed", "a", "b", "c", "d", "e", "f", "g", "known"}; !slices.Equal(items, want) {
		t.Errorf("%v, want %v", items, want)
	}
	for _, s := range all {
		if want := map[string]int{"missed": 5, "known": 3}[s.Item]; s.Asked != max(1, want) {
			t.Errorf("%s was asked %d times", s.Item, s.Asked)
		}
		if s.Item == "missed" {
			var taken []string
			for _, x := range s.Taken {
				taken = append(taken, fmt.Sprint(x.Times, " ", x.Item))
			}
			if want := []string{"2 c", "1 a", "1 b", "1 d"}; !slices.Equal(taken, want) {
				t.Errorf("taken for %v, want %v", taken, want)
			}
		}
		if s.Item == "known" && (len(s.Weeks) != 3 || !s.Weeks[0].Begins.Before(s.Weeks[1].Begins) || !s.Weeks[1].Begins.Before(s.Weeks[2].Begins)) {
			t.Errorf("its weeks are %v", s.Weeks)
		}
	}
}

// Weeks that begin after the end, such as those of a clock that was wrong, are passed over.
func TestWeeksAfterTheEndArePassedOver(t *testing.T) {
	end := time.Date(2026, 3, 9, 0, 0, 0, 0, time.UTC)
	weeks := []Week{{end.AddDate(0, 0, -7), Tally{Asked: 9, Right: 9}}, {end, Tally{Asked: 9}}}
	if share, answers := ToldApart(weeks, end); share != 1 || answers != 9 {
		t.Errorf("%v of %d answers", share, answers)
	}
}
