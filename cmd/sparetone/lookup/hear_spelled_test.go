package lookup

import (
	"math"
	"testing"
)

// A figure is rounded, and none is shown as -0.
func TestInParts(t *testing.T) {
	for x, want := range map[float64]float64{1.26: 1.3, -1.26: -1.3, 0.04: 0, -0.04: 0} {
		if got := inParts(x, 10); got != want || math.Signbit(got) != (want < 0) {
			t.Errorf("%v in tenths is %v, want %v", x, got, want)
		}
	}
}
