package class

import (
	"fmt"
	"math"

	"sparetone/progress"
	"sparetone/progress/memory"
)

// The tests. How often something is right by guessing alone is known for each question: one in as many as there were choices, and never
// where an answer was given freely (Tally.Guessed adds that up). Everything here is held against that.
//
//   - Whether guessing explains a count: the exact binomial distribution at the mean chance of its questions. Where the chances differ,
//     the true distribution is narrower, so the test errs on the side of saying nothing (W. Hoeffding, "On the distribution of the number
//     of successes in independent trials", Annals of Mathematical Statistics 27, 1956; from memory).
//   - How much is known: the share of right answers above chance, of what chance leaves (Abbott 1925, see memory.ToldApart), between the
//     ends of Wilson's interval of the share (1927, see memory.RateOf).
//   - Where one of several things is spoken of, each has only its part of the error: Bonferroni's bound (common practice, no source).

const (
	sure       = 2.5758293035489004 // standard deviations to either side of 99 % of a normal distribution
	hardlyEver = 0.001              // chance below which luck is no explanation of what is said of a student as a whole
	family     = 0.05               // chance that any of a student's things is called weak by bad luck alone
)

// tally adds up answers.
func tally(t *memory.Tally, a answer) {
	t.Asked++
	if a.result == progress.Right {
		t.Right++
	}
	if a.choices > 0 {
		t.Guessed += 1 / float64(a.choices)
	}
}

// known returns how much of what was asked is known, 0 to 1, guessing taken out, with the ends of its interval, z standard deviations to
// either side.
func known(t memory.Tally, z float64) (share, low, high float64) {
	left := float64(t.Asked) - t.Guessed
	if left <= 0 {
		return 0, 0, 1
	}
	above := func(right float64) float64 { return min(1, max(0, (right-t.Guessed)/left)) }
	low, high = memory.Wilson(t.Right, t.Asked, z)
	return above(float64(t.Right)), above(low * float64(t.Asked)), above(high * float64(t.Asked))
}

// atLeastByLuck is the chance of so many right answers or more by guessing alone.
func atLeastByLuck(t memory.Tally) float64 {
	if t.Asked == 0 || t.Right == 0 {
		return 1
	}
	if t.Guessed <= 0 {
		return 0
	}
	return 1 - memory.AtMost(t.Right-1, t.Asked, min(1-1e-12, t.Guessed/float64(t.Asked)))
}

// Change is how much more often the same is right than before a day, in shares of 1.
type Change struct {
	By, Low, High float64 // 95 %
	Things        int     // asked as closely on both sides of the day
	Before, After int     // answers to these
}

// stratum is what is compared with itself: a thing, asked as closely.
type stratum struct {
	thing int32
	rung  uint8
}

// changeOf compares what was asked on both sides of a day: each thing with itself on the same rung, and each counts by the answers that
// there are on the side that has fewer. So what is new, or asked more closely than before, makes no difference. False if nothing was.
//
// Source: the difference of Mantel and Haenszel, with the variance of T. Sato ("On the variance estimator for the Mantel-Haenszel risk
// difference", Biometrics 45, 1989; from memory), which holds for many things with few answers each; the test measures how often the
// interval holds what is true.
func changeOf(answers []answer, since progress.Day) (c Change, any bool) {
	type sides struct{ asked, right [2]float64 }
	of := map[stratum]*sides{}
	for _, a := range answers {
		k := stratum{a.thing, a.rung}
		if of[k] == nil {
			of[k] = &sides{}
		}
		side := 0
		if a.day >= since {
			side = 1
		}
		of[k].asked[side]++
		if a.result == progress.Right {
			of[k].right[side]++
		}
	}
	var sum, weight, p, q float64
	for _, s := range of {
		n0, n1 := s.asked[0], s.asked[1]
		if n0 == 0 || n1 == 0 {
			continue
		}
		n, x0, x1 := n0+n1, s.right[0], s.right[1]
		sum += (x1*n0 - x0*n1) / n
		weight += n0 * n1 / n
		p += (n0*n0*x1 - n1*n1*x0 + n0*n1*(n1-n0)/2) / (n * n)
		q += (x1*(n0-x0) + x0*(n1-x1)) / (2 * n)
		c.Things++
		c.Before, c.After = c.Before+int(n0), c.After+int(n1)
	}
	if weight == 0 {
		return c, false
	}
	c.By = sum / weight
	half := 1.96 * math.Sqrt(max(0, c.By*p+q)) / weight
	c.Low, c.High = max(-1, c.By-half), min(1, c.By+half)
	return c, true
}

// Points is a share as points of a hundred with its sign, such as +5; 0 has none.
func Points(share float64) string {
	n := int(math.Round(100 * share))
	if n == 0 {
		return "0"
	}
	return fmt.Sprintf("%+d", n)
}

// Says reports whether a change is told from none.
func (c Change) Says() bool { return c.Low > 0 || c.High < 0 }

// Shown is a share as it is shown: in whole hundredths.
type Shown struct{ Known, Low, High int }

// KnownOf returns how much of what was asked is known, guessing taken out, with the ends of the 95 % interval; false if nothing was asked.
func KnownOf(t memory.Tally) (Shown, bool) {
	if t.Asked == 0 {
		return Shown{}, false
	}
	share, low, high := known(t, 1.959963984540054)
	hundredths := func(x float64) int { return int(math.Round(100 * x)) }
	return Shown{hundredths(share), hundredths(low), hundredths(high)}, true
}
