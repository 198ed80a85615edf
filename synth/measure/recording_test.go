package measure

import (
	"math"
	"testing"
)

// The estimators are themselves measured, on tones that are known.
func TestTheMeasuringIsRight(t *testing.T) {
	for _, f := range []float64{41.2, 82.41, 261.63, 440, 1318.5, 1975.5} {
		r := Recording{Rate: 48000}
		for i := range 96000 {
			s := float64(i) / 48000
			var x float64
			for n := 1; n <= 5; n++ { // five partials of which each falls faster
				x += math.Exp(-float64(n)*3*s) * math.Sin(2*math.Pi*float64(n)*f*s+float64(n)) / float64(n)
			}
			r.Samples = append(r.Samples, x)
		}
		if off := Cents(r.Frequency(f*1.0005, 0.1, 0.9), f); math.Abs(off) > 0.005 {
			t.Errorf("a tone at %v Hz is measured %.4f cents off", f, off)
		}
		if rate, _ := r.Decay(f, 1, 0.1, 1); math.Abs(rate-3*8.686) > 0.3 {
			t.Errorf("a tone at %v Hz that falls 26.06 dB/s is measured to fall %.2f", f, rate)
		}
		if rate, _ := r.Decay(f, 3, 0.1, 1); math.Abs(rate-9*8.686) > 1 {
			t.Errorf("partial 3 of %v Hz that falls 78.2 dB/s is measured to fall %.2f", f, rate)
		}
	}
}
