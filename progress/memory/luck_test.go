package memory

import (
	"math"
	"testing"

	"sparetone/progress"
)

// What the first right answer is worth, by how many answers there were to choose from.
func TestAFirstRightAnswerCountsForWhatItShows(t *testing.T) {
	w := DefaultWeights
	for _, c := range []struct {
		choices int
		known   float64
		stable  float64      // days
		due     progress.Day // days
	}{
		{0, 1, 2.3065, 4},
		{2, 2.0 / 3, 1.0409, 2},
		{4, 0.8, 1.4310, 3},
		{5, 5.0 / 6, 1.5495, 3},
	} {
		a := progress.Answer{Result: progress.Right, Choices: c.choices}
		if got := showsKnown(a.Guess()); math.Abs(got-c.known) > 1e-12 {
			t.Errorf("%d choices: known with %.4f, want %.4f", c.choices, got, c.known)
		}
		m := Memory{}.after(&w, Firm, progress.Right, a.Guess(), 100, false)
		if math.Abs(m.Stability-c.stable) > 1e-4 || m.Due != 100+c.due {
			t.Errorf("%d choices: stable for %.4f days, back in %d; want %.4f and %d", c.choices, m.Stability, m.Due-100, c.stable, c.due)
		}
		if c.choices > 0 && (m.Difficulty <= w.First(Firm).Difficulty || m.Difficulty >= w.First(Missed).Difficulty) {
			t.Errorf("%d choices: difficulty %.2f", c.choices, m.Difficulty)
		}
		// A miss is a miss, and what comes later is as it was.
		if w.firstOf(Missed, a.Guess()) != w.First(Missed) {
			t.Errorf("%d choices: a miss is not as it was", c.choices)
		}
		if m.after(&w, Firm, progress.Right, a.Guess(), 103, true).Trace != w.Next(m.Trace, 3, Firm) {
			t.Errorf("%d choices: the second answer is not as it was", c.choices)
		}
	}
}
