package pupils

import "testing"

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
