package progress

import (
	"math"
	"testing"
)

// What the first right answer is worth, by how many answers there were to choose from.
func TestAFirstRightAnswerCountsForWhatItShows(t *testing.T) {
	w := DefaultWeights
	for _, c := range []struct {
		choices int
		known   float64
		stable  float64 // days
		due     Day     // days
	}{
		{0, 1, 2.3065, 4},
		{2, 2.0 / 3, 1.0409, 2},
		{4, 0.8, 1.4310, 3},
		{5, 5.0 / 6, 1.5495, 3},
	} {
		a := Answer{Result: Right, Choices: c.choices}
		if got := showsKnown(a.guess()); math.Abs(got-c.known) > 1e-12 {
			t.Errorf("%d choices: known with %.4f, want %.4f", c.choices, got, c.known)
		}
		m := Memory{}.after(&w, Firm, Right, a.guess(), 100, false)
		if math.Abs(m.Stability-c.stable) > 1e-4 || m.Due != 100+c.due {
			t.Errorf("%d choices: stable for %.4f days, back in %d; want %.4f and %d", c.choices, m.Stability, m.Due-100, c.stable, c.due)
		}
		if c.choices > 0 && (m.Difficulty <= w.First(Firm).Difficulty || m.Difficulty >= w.First(Missed).Difficulty) {
			t.Errorf("%d choices: difficulty %.2f", c.choices, m.Difficulty)
		}
		// A miss is a miss, and what comes later is as it was.
		if w.firstOf(Missed, a.guess()) != w.First(Missed) {
			t.Errorf("%d choices: a miss is not as it was", c.choices)
		}
		if m.after(&w, Firm, Right, a.guess(), 103, true).Trace != w.Next(m.Trace, 3, Firm) {
			t.Errorf("%d choices: the second answer is not as it was", c.choices)
		}
	}
}

// A run of right answers is no luck once guessing hardly gives it: five of two choices, two of five, and of those that
// are given freely the second, as one alone is not spoken of.
func TestHowManyRightAnswersAreNoLuck(t *testing.T) {
	for choices, want := range map[int]int{2: 5, 3: 3, 4: 3, 5: 2, 0: 2} {
		f := inMemory(t, evening)
		give := func(r Result) Standing {
			if err := f.Record(Answer{Item: "d/t/u", Drill: "d", At: evening, Result: r, Choices: choices}); err != nil {
				t.Fatal(err)
			}
			all, err := f.Standings()
			if err != nil {
				t.Fatal(err)
			}
			return all[0]
		}
		for range 2 { // a miss begins it anew
			for n := 1; n <= want+1; n++ {
				if got := give(Right).Sure; got != (n >= want) {
					t.Errorf("%d choices: after %d right answers sure: %v", choices, n, got)
				}
			}
			if give(Wrong).Sure {
				t.Errorf("%d choices: sure after a miss", choices)
			}
		}
		sound(t, f, 2*(want+2))
	}
}
