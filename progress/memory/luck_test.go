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
		// A miss is a miss.
		if w.firstOf(Missed, a.Guess()) != w.First(Missed) {
			t.Errorf("%d choices: a miss is not as it was", c.choices)
		}
	}
}

// What an answer shows of whether something was known, eight slips in a hundred reckoned with; worked out by hand.
func TestLuckAndSlips(t *testing.T) {
	for _, c := range []struct {
		known, guess float64
		right        bool
		want         float64
	}{
		{0.5, 0.5, true, 0.46 / 0.71},
		{0.5, 0, true, 1},
		{0.95, 0.25, false, 0.076 / (0.076 + 0.0375)}, // who knows something well has rather slipped
		{0.5, 0.25, false, 0.04 / (0.04 + 0.375)},
		{0, 0, true, 0}, // cannot be, and says nothing
	} {
		if got := shows(c.known, c.guess, c.right); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("known with %v, guessed with %v, right %v: %v, want %v", c.known, c.guess, c.right, got, c.want)
		}
	}
	if got := rightWith(0.8, 0.25); math.Abs(got-(0.8*0.92+0.2*0.25)) > 1e-12 {
		t.Errorf("right with %v", got)
	}
	w := DefaultWeights
	before := Trace{Stability: 30, Difficulty: 5}
	chance := w.Retrievability(before, 3)
	right, wrong := w.next(before, 3, chance, Firm), w.next(before, 3, chance, Missed)
	// Given freely, a right answer is no luck; a miss of what was known well leaves more than a miss alone.
	if got := w.learn(before, 3, chance, Firm, 0); math.Abs(got.Stability-right.Stability) > 1e-9 {
		t.Errorf("a free right answer leaves %v, want %v", got, right)
	}
	if got := w.learn(before, 3, chance, Missed, 0.25).Stability; got <= 2*wrong.Stability || got >= right.Stability {
		t.Errorf("a miss of what was known well leaves %v days; a right answer %v, a miss alone %v", got, right.Stability, wrong.Stability)
	}
	if got := w.learn(before, 3, chance, Firm, 0.5).Stability; got >= right.Stability || got <= wrong.Stability {
		t.Errorf("a right answer of two choices leaves %v days", got)
	}
	if got := w.learn(before, 3, chance, Shaky, 0.5); got != w.next(before, 3, chance, Shaky) {
		t.Errorf("what was right with help is no guess: %v", got)
	}
}
