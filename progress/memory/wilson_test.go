package memory

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
		if !(math.Abs(low-c.low) <= 5e-5 && math.Abs(high-c.high) <= 5e-5) { // nor is it no number
			t.Errorf("%d of %d: %.4f to %.4f, want %.4f to %.4f", c.k, c.n, low, high, c.low, c.high)
		}
	}
}
