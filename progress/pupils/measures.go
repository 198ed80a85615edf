package pupils

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
