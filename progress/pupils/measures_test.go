package pupils

import (
	"math"
	"testing"
)

// Of two students with 12 and 5 sure questions 8.5 are sure on the average.
func TestSure(t *testing.T) {
	if got := Sure([]Outcome{{Wasted: 12}, {Wasted: 5}}); got != 8.5 {
		t.Errorf("%v are sure", got)
	}
}

// Half of the answers right is not under half.
func TestHowItFeels(t *testing.T) {
	right, low := HowItFeels([]Outcome{{Sessions: []Session{{Right: 5, Of: 10}, {Right: 4, Of: 10}}}, {Sessions: []Session{{Right: 9, Of: 10}, {Right: 10, Of: 10}}}})
	if right != 0.7 || low != 0.25 {
		t.Errorf("%v right, %v of the sessions under half", right, low)
	}
}

// One teacher's students know 6 things after 10 minutes, another's 4 after 20: three times as much a minute.
func TestRatio(t *testing.T) {
	var a, b, more Outcome
	a.Known[1][0], a.Firm[1][0], a.Minutes[1] = 5, 2, 6
	more.Known[1][0], more.Firm[1][0], more.Minutes[1] = 1, 1, 4
	b.Known[1][0], b.Firm[1][0], b.Minutes[1] = 4, 12, 20
	if known, firm := Ratio([]Outcome{a, more}, []Outcome{b}, 1, 0); math.Abs(known-3) > 1e-9 || firm != 0.5 {
		t.Errorf("%v, firmly %v", known, firm)
	}
}

// With students that differ as much with either teacher the error is 0; of a ratio of means with one student beside it that knows nothing it is
// what leaving each out moves.
func TestError(t *testing.T) {
	knows := func(known ...float64) (all []Outcome) {
		for _, k := range known {
			var o Outcome
			o.Known[0][1], o.Minutes[0] = k, 2
			all = append(all, o)
		}
		return all
	}
	if got := Error(knows(2, 4, 9), knows(1, 2, 4.5), 0, 1); math.Abs(got) > 1e-12 {
		t.Errorf("the same ratio of each student is off by %v", got)
	}
	// 6 / 4; without the first 4 / 2 = 2, without the second 2 / 2 = 1: each half off their mean 1.5.
	if got := Error(knows(2, 4), knows(2, 2), 0, 1); math.Abs(got-0.5) > 1e-12 {
		t.Errorf("off by %v, not by 0.5", got)
	}
	if got := Error(knows(2), knows(3), 0, 1); got != 0 {
		t.Errorf("one student is off by %v", got)
	}
}

// Back counts the sessions from a day on until no more waits than before, and those of the first five with under half right.
func TestBack(t *testing.T) {
	slow := Outcome{Sessions: []Session{{Day: 9, Due: 3, Right: 1, Of: 4}, {Day: 20, Due: 9, Right: 1, Of: 4}, {Day: 21, Due: 8, Right: 2, Of: 4},
		{Day: 22, Due: 7, Right: 4, Of: 4}, {Day: 23, Due: 6, Right: 4, Of: 4}, {Day: 24, Due: 5, Right: 4, Of: 4}, {Day: 25, Due: 3, Right: 0, Of: 4}, {Day: 26, Due: 1}}}
	quick := Outcome{Sessions: []Session{{Day: 19, Due: 2}, {Day: 20, Due: 2, Right: 4, Of: 4}, {Day: 21, Due: 0, Right: 0, Of: 4}}}
	if sessions, low := Back([]Outcome{slow, quick}, 20); sessions != 3.5 || low != 1.0/6 {
		t.Errorf("%v sessions, %v of them bad", sessions, low)
	}
}
