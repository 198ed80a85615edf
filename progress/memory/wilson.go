package memory

import "math"

// wilson returns the 95 % confidence interval of a share that was k of n.
//
// Source: E. B. Wilson, "Probable inference, the law of succession, and statistical inference",
// Journal of the American Statistical Association 22(158), 1927. The 1.96 is the normal quantile of
// 97.5 %.
func wilson(k, n int) (low, high float64) { return Wilson(k, n, 1.959963984540054) }

// Wilson returns the confidence interval of a share that was k of n, z standard deviations of a normal distribution to either side.
func Wilson(k, n int, z float64) (low, high float64) {
	if n == 0 {
		return 0, 1
	}
	p, m := float64(k)/float64(n), float64(n)
	mid := (p + z*z/(2*m)) / (1 + z*z/m)
	half := z / (1 + z*z/m) * math.Sqrt(p*(1-p)/m+z*z/(4*m*m))
	return max(0, mid-half), min(1, mid+half)
}
