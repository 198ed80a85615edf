package synth

import (
	"math"
	"math/cmplx"
)

// A string is a loop of delay: what is in it travels to the bridge, back to the nut and round again,
// and loses a little on each round trip (Jaffe and Smith, "Extensions of the Karplus-Strong plucked-
// string algorithm", Computer Music Journal 7(2), 1983). Everything that happens in a round trip is in
// one short filter:
//
//	        ┌──────────────────────────────────────────┐
//	pluck ─→(+)─→ n samples of delay ─→ loss ∗ fraction ─┴─→ bridge
//
//	loss      g·[a, 1−2a, a]     dies away, high partials first; delays by 1 sample at every frequency
//	fraction  4 taps             a delay of 1 to 2 samples (third-order Lagrange interpolation; Laakso,
//	                             Välimäki, Karjalainen and Laine, IEEE Signal Processing Magazine 13(1), 1996)
//
// Convolved, they are six taps. The period is n + 1 + the fraction's delay; the fraction is found from
// the filter's phase at the string's frequency itself, so that frequency is exact.

// taps is how many taps the filter of a round trip has.
const taps = 6

// roundTrip is what a string's wave goes through between two passes over the bridge.
type roundTrip struct {
	delay int           // samples before the filter's first tap
	fir   [taps]float64 // the filter
}

// newRoundTrip returns the round trip of a string at f Hz whose partials die away at the rates that
// decay gives: decay(f) is σ in 1/s, and a partial at f falls as e^(−σt).
//
// The loss filter has two parameters. They are set so that the fundamental and the partial nearest
// lossAt (or the second, of high strings) die away exactly as asked.
func newRoundTrip(f float64, decay func(f float64) float64) roundTrip {
	period := float64(SampleRate) / f
	fundamental := 2 * math.Pi / period
	k := max(2, math.Round(lossAt/f))

	// ln|H| a round trip, at the fundamental and at partial k. With c = 1 − cos ω:
	// g(1−2a·c₁) = e^(−σ₁P), g(1−2a·c_k) = e^(−σ_kP).
	first := math.Exp(-decay(f) * period / float64(SampleRate))
	kth := math.Exp(-decay(k*f) * period / float64(SampleRate))
	c1, ck := 1-math.Cos(fundamental), 1-math.Cos(min(k*fundamental, math.Pi))
	r := kth / first
	a := min(max((1-r)/(2*(ck-r*c1)), 0), mostLoss)
	loss := [3]float64{a, 1 - 2*a, a}

	delay := int(period - 2)
	fraction := period - 1 - float64(delay)
	var rt roundTrip
	for range 8 { // each time from what the last one was off by; the rest is far below a thousandth of a cent
		rt = roundTrip{delay, convolve(loss, lagrange(fraction))}
		fraction += cmplx.Phase(rt.response(fundamental)) / fundamental // after a whole turn the phase is 0
	}
	// |H| is made exact at the fundamental, but never so large that a wave could grow at 0 Hz.
	gain := min(first/cmplx.Abs(rt.response(fundamental)), 1-1e-7)
	for i := range rt.fir {
		rt.fir[i] *= gain
	}
	return rt
}

const (
	lossAt   = 3500.0 // Hz, where the loss filter is fitted besides the fundamental
	mostLoss = 0.25   // a at which the loss filter has its zero at half the sample rate
)

// response returns the gain and phase of the whole round trip at w radians a sample.
func (rt roundTrip) response(w float64) complex128 {
	var h complex128
	for i, c := range rt.fir {
		h += complex(c, 0) * cmplx.Rect(1, -w*float64(rt.delay+i))
	}
	return h
}

// lagrange returns the third-order Lagrange interpolator that delays by d samples, 1 ≤ d ≤ 2:
// h(k) = Π (d − i)/(k − i) over i ≠ k.
func lagrange(d float64) [4]float64 {
	return [4]float64{
		-(d - 1) * (d - 2) * (d - 3) / 6,
		d * (d - 2) * (d - 3) / 2,
		-d * (d - 1) * (d - 3) / 2,
		d * (d - 1) * (d - 2) / 6,
	}
}

func convolve(a [3]float64, b [4]float64) (c [taps]float64) {
	for i, x := range a {
		for j, y := range b {
			c[i+j] += x * y
		}
	}
	return c
}

// run sends one block of waves round the string: line holds what has passed the bridge, old before
// new, and its last len(mix) samples are to be made. What passes the bridge is added to mix.
func (rt *roundTrip) run(line, mix []float64, gain float64) {
	c0, c1, c2, c3, c4, c5 := rt.fir[0]*gain, rt.fir[1]*gain, rt.fir[2]*gain, rt.fir[3]*gain, rt.fir[4]*gain, rt.fir[5]*gain
	made := line[len(line)-len(mix):]
	old := line[len(line)-len(mix)-rt.delay-(taps-1):]
	y5, y4, y3, y2, y1 := old[0], old[1], old[2], old[3], old[4]
	old = old[taps-1:]
	old, mix = old[:len(made)], mix[:len(made)]
	for i, y0 := range old {
		y := made[i] + c0*y0 + c1*y1 + c2*y2 + c3*y3 + c4*y4 + c5*y5
		made[i] = y
		mix[i] += y
		y5, y4, y3, y2, y1 = y4, y3, y2, y1, y0
	}
}

// back returns what comes back to the bridge at index i of line: what run computes, of one sample.
func (rt *roundTrip) back(line []float64, i int) (y float64) {
	for k, c := range rt.fir {
		y += c * line[i-rt.delay-k]
	}
	return y
}

// period returns how long a round trip takes at the string's frequency, in samples, to within one.
func (rt *roundTrip) period() float64 { return float64(rt.delay) + 2.5 }
