package synth

import (
	"math"
	"math/cmplx"
)

// biquad is a second-order filter: y[n] = b0·x[n] + b1·x[n−1] + b2·x[n−2] − a1·y[n−1] − a2·y[n−2].
type biquad struct{ b0, b1, b2, a1, a2 float64 }

// resonance returns a filter that passes what is near f Hz: gain 1 at f, 3 dB less bandwidth/2 Hz away.
// Formula: R. Bristow-Johnson, "Cookbook formulae for audio EQ biquad filter coefficients" (band-pass,
// constant peak gain).
func resonance(f, bandwidth float64) biquad {
	w := 2 * math.Pi * f / float64(SampleRate)
	alpha := math.Sin(w) * bandwidth / (2 * f)
	a0 := 1 + alpha
	return biquad{alpha / a0, 0, -alpha / a0, -2 * math.Cos(w) / a0, (1 - alpha) / a0}
}

// highPass returns a filter that keeps what is above f Hz, falling 12 dB an octave below it.
// Formula: as for resonance (high-pass, Q = 1/√2).
func highPass(f float64) biquad {
	w := 2 * math.Pi * f / float64(SampleRate)
	alpha := math.Sin(w) / math.Sqrt2
	c, a0 := math.Cos(w), 1+alpha
	return biquad{(1 + c) / 2 / a0, -(1 + c) / a0, (1 + c) / 2 / a0, -2 * c / a0, (1 - alpha) / a0}
}

// response returns the filter's gain and phase at w radians a sample.
func (q biquad) response(w float64) complex128 {
	z := cmplx.Rect(1, -w)
	over := complex(q.b0, 0) + z*(complex(q.b1, 0)+z*complex(q.b2, 0))
	under := 1 + z*(complex(q.a1, 0)+z*complex(q.a2, 0))
	return over / under
}

// add filters x and adds gain times the result to y.
func (q biquad) add(y, x []float64, gain float64) {
	var s1, s2 float64 // transposed direct form II
	for i, v := range x {
		out := q.b0*v + s1
		s1 = q.b1*v - q.a1*out + s2
		s2 = q.b2*v - q.a2*out
		y[i] += gain * out
	}
}
