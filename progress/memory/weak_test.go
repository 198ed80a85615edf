package memory

import (
	"math"
	"math/rand/v2"
	"testing"

	"sparetone/progress"
)

// tallyOf counts answers among as many choices, 0 for free ones.
func tallyOf(held, asked, choices int) (t Tally) {
	for n := range asked {
		a := progress.Answer{Result: progress.Wrong, Choices: choices}
		if n < held {
			a.Result = progress.Right
		}
		t.add(a)
	}
	return t
}

// How few right answers are weak, and which of them guessing explains. The shares of the binomial distribution beside
// them are sums of its terms.
func TestWhatIsWeakAndWhatIsGuessed(t *testing.T) {
	for _, c := range []struct {
		held, asked, choices int
		weak, guessed        bool
	}{
		{1, 3, 2, false, true},    // too few answers
		{0, 7, 2, false, false},   // as few; of two choices 0 of 7 is worse than guessing, 1 in 128
		{3, 8, 2, true, true},     // with 0.85: 0.3 %
		{4, 8, 2, false, true},    // with 0.85: 2.1 %
		{1, 8, 2, true, false},    // with 0.5: 3.5 %
		{2, 8, 2, true, true},     // with 0.5: 14 %
		{16, 20, 2, false, false}, // with 0.5: 0.6 % or more
		{4, 12, 5, true, true},    // with 0.2: 20.5 % or more
		{6, 12, 5, true, false},   // with 0.2: 1.9 % or more
		{3, 8, 0, true, false},    // nothing is guessed
		{0, 8, 0, true, false},
		{8, 8, 2, false, false},
	} {
		tally := tallyOf(c.held, c.asked, c.choices)
		if tally.weak() != c.weak || tally.AsGuessing() != c.guessed {
			t.Errorf("%d of %d among %d choices: weak %v, as guessing %v", c.held, c.asked, c.choices, tally.weak(), tally.AsGuessing())
		}
	}
}

// A mistake is spoken of where all misses of somebody who is right as often as wished are likely to be fewer.
func TestWhichMistakesAreSpokenOf(t *testing.T) {
	for _, c := range []struct {
		times, asked int
		want         bool
	}{
		{3, 3, false}, {4, 8, false}, {5, 8, true}, {7, 20, false}, {8, 20, true}, {0, 8, false},
	} {
		if got := (Taken{Times: c.times, Asked: c.asked}).Claimed(); got != c.want {
			t.Errorf("%d of %d: %v", c.times, c.asked, got)
		}
	}
}

func TestBinomialSums(t *testing.T) {
	for _, c := range []struct {
		k, n int
		p    float64
	}{{0, 1, 0.5}, {3, 8, 0.85}, {7, 20, 0.2}, {19, 20, 0.95}, {-1, 5, 0.5}, {5, 5, 0.1}} {
		sum := 0.0
		for k := 0; k <= c.k; k++ {
			choose := 1.0
			for i := range k {
				choose *= float64(c.n-i) / float64(i+1)
			}
			sum += choose * math.Pow(c.p, float64(k)) * math.Pow(1-c.p, float64(c.n-k))
		}
		if got := AtMost(c.k, c.n, c.p); math.Abs(got-sum) > 1e-12 {
			t.Errorf("%d or fewer of %d at %v: %v, want %v", c.k, c.n, c.p, got, sum)
		}
	}
}

// Somebody who is right as often as wished is hardly ever called weak, though it is looked at after each of forty
// answers; who only guesses nearly always is, and is said to guess.
func TestWhoIsCalledWeak(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 15))
	const students, answers = 4000, 40
	ever := func(right float64, choices int) (weak, guessed float64) {
		for range students {
			var t Tally
			was := false
			for range answers {
				a := progress.Answer{Result: progress.Wrong, Choices: choices}
				if rng.Float64() < right {
					a.Result = progress.Right
				}
				t.add(a)
				was = was || t.weak()
			}
			if was {
				weak += 1.0 / students
			}
			if t.weak() && t.AsGuessing() {
				guessed += 1.0 / students
			}
		}
		return weak, guessed
	}
	for _, choices := range []int{0, 2, 5} {
		if weak, _ := ever(Aim, choices); weak > 0.05 {
			t.Errorf("%d choices: %.3f of those who are right as often as wished are called weak", choices, weak)
		}
		if choices == 0 {
			continue
		}
		if weak, guessed := ever(1/float64(choices), choices); weak < 0.97 || guessed < 0.85 {
			t.Errorf("%d choices: %.3f of those who guess are called weak, %.3f are said to guess", choices, weak, guessed)
		}
	}
}
