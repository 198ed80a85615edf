package progress

import (
	"math"
	"testing"
)

// R. G. Newcombe, Statistics in Medicine 17, 1998, Table I, method 3; the figures are from memory.
func TestWilsonIntervals(t *testing.T) {
	for _, c := range []struct {
		k, n      int
		low, high float64
	}{
		{81, 263, 0.2553, 0.3662},
		{15, 148, 0.0624, 0.1605},
		{0, 20, 0, 0.1611},
		{1, 29, 0.0061, 0.1718},
		{0, 0, 0, 1},
	} {
		low, high := wilson(c.k, c.n)
		if math.Abs(low-c.low) > 5e-5 || math.Abs(high-c.high) > 5e-5 {
			t.Errorf("%d of %d: %.4f to %.4f, want %.4f to %.4f", c.k, c.n, low, high, c.low, c.high)
		}
	}
}

func TestNothingIsClaimedBeforeEightAnswers(t *testing.T) {
	f := inMemory(t, evening)
	miss := Answer{Item: "d/dominant/u", Drill: "d", At: evening, Result: Wrong, Choices: 2, TakenFor: "d/major/u"}
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
