package memory

import "gonum.org/v1/gonum/mathext"

// AtMost returns the chance of k right answers or fewer out of n, each right with a chance p (above 0 and below 1 where
// k lies between).
//
// Source: the binomial distribution as an incomplete beta function, NIST Digital Library of Mathematical Functions,
// 8.17.5, from memory.
func AtMost(k, n int, p float64) float64 {
	switch {
	case k < 0:
		return 0
	case k >= n:
		return 1
	}
	return mathext.RegIncBeta(float64(n-k), float64(k+1), 1-p)
}
