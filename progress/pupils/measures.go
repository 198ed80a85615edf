package pupils

import "math"

// Ratio returns how many times as much is known, and known firmly, for each minute with one teacher as with another, by the number of
// a measured day and of a time after it.
func Ratio(a, b []Outcome, measured, later int) (known, firm float64) {
	var k, f, minutes [2]float64
	for side, all := range [][]Outcome{a, b} {
		for _, o := range all {
			k[side] += o.Known[measured][later]
			f[side] += o.Firm[measured][later]
			minutes[side] += o.Minutes[measured]
		}
	}
	return k[0] / minutes[0] / (k[1] / minutes[1]), f[0] / minutes[0] / (f[1] / minutes[1])
}

// Error returns the standard error of a ratio of what is known for each minute, where the students of both teachers are the same ones in the
// same order: from how far it moves when each student in turn is left out. Source: J. W. Tukey, "Bias and confidence in not-quite large
// samples", Annals of Mathematical Statistics 29, 1958 (the jackknife; from memory). It is 0 of fewer than two students.
func Error(a, b []Outcome, measured, later int) float64 {
	n := len(a)
	if n < 2 || n != len(b) {
		return 0
	}
	left := make([]float64, n)
	mean := 0.0
	for i := range a {
		left[i], _ = Ratio(without(a, i), without(b, i), measured, later)
		mean += left[i] / float64(n)
	}
	sum := 0.0
	for _, l := range left {
		sum += (l - mean) * (l - mean)
	}
	return math.Sqrt(sum * float64(n-1) / float64(n))
}

// without are all outcomes but one.
func without(all []Outcome, i int) []Outcome {
	return append(append([]Outcome{}, all[:i]...), all[i+1:]...)
}

// HowItFeels returns the share of right answers, and of sessions in which less than half was right.
func HowItFeels(all []Outcome) (right, low float64) {
	asked, sessions := 0.0, 0.0
	for _, o := range all {
		for _, s := range o.Sessions {
			right += float64(s.Right)
			asked += float64(s.Of)
			sessions++
			if s.Right*2 < s.Of {
				low++
			}
		}
	}
	return right / asked, low / sessions
}

// Back returns how many sessions students need from a day on until no more waits than at the end of the last session before they
// were away, on the average, and the share of the first five in which less than half was right.
func Back(all []Outcome, from int) (sessions, low float64) {
	first := 0.0
	for _, o := range all {
		before, n := 0, 0
		for _, s := range o.Sessions {
			if s.Day < from {
				before = s.Due
				continue
			}
			n++
			if n <= 5 {
				first++
				if s.Right*2 < s.Of {
					low++
				}
			}
			if s.Due <= before {
				break
			}
		}
		sessions += float64(n)
	}
	return sessions / float64(len(all)), low / max(1, first)
}

// Sure returns how many of the first hundred questions were such as are right nineteen times in twenty, on the average over students.
func Sure(all []Outcome) float64 {
	n := 0
	for _, o := range all {
		n += o.Wasted
	}
	return float64(n) / float64(len(all))
}
