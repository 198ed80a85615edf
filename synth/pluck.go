package synth

import (
	"math"
	"sync"
)

// touch is how a string is plucked: where, and with what.
type touch struct {
	position float64 // from the bridge, as a part of the sounding length
	soft     float64 // seconds the string takes to leave a finger at strength 0
	hard     float64 // and at strength 1; a pick is quicker than a nail, a nail than flesh
}

// leaving returns how long a string that sounds f Hz takes to leave what plucks it, in samples: at most a
// third of a period, for then it would not sound its fundamental.
func (t touch) leaving(f, strength float64) float64 {
	return min(t.soft+(t.hard-t.soft)*strength, 1/(3*f)) * float64(SampleRate)
}

// A pluck displaces the string to a corner and lets it go. The force at the bridge is then a train of
// rectangles, one a period, as wide as position times the period, so that partial n is as strong as
// sin(nπ·position)/n (Fletcher and Rossing, The Physics of Musical Instruments, "plucked string";
// Jaffe and Smith 1983 call it pick position). The width of what plucks rounds the rectangles' edges.

// excitation returns what one pluck sends into a string that sounds f Hz: one rectangle with round
// edges, through the body, times gain. Its strength is such that any pitch comes out equally loud at first, for
// equal strength: see evenness.
func (v *instrument) excitation(f, strength, gain float64) []float64 {
	x := v.released(f, strength, gain)
	x = append(x, make([]float64, v.body.length())...)
	v.body.respond(x)
	return x
}

// released returns the rectangle of an excitation, before the body.
func (v *instrument) released(f, strength, gain float64) []float64 {
	wide := v.touch.position * float64(SampleRate) / f
	edge := v.touch.leaving(f, strength)
	x := make([]float64, int(wide+edge)+2)
	level := gain * strength / v.evenness(f, strength)
	for i := range x {
		x[i] = level * (rise(float64(i), edge) - rise(float64(i)-wide, edge))
	}
	return x
}

// plucked returns what makes the excitation of one pluck, once, when it is first asked for: the two strings of a
// course, which are plucked as one, have it in common.
func (v *instrument) plucked(f, strength, gain float64) func() []float64 {
	return sync.OnceValue(func() []float64 { return v.excitation(f, strength, gain) })
}

// rise goes from 0 to 1 in edge samples, as half a cosine does.
func rise(t, edge float64) float64 {
	switch {
	case t <= 0:
		return 0
	case t >= edge:
		return 1
	}
	return (1 - math.Cos(math.Pi*t/edge)) / 2
}

// evenness returns how loud the partials of a pluck at f Hz are together, before they die away: the
// root of their K-weighted power (ITU-R BS.1770-5). A real body makes some notes stronger than others;
// in an exercise for the ear no string should stand out for that.
func (v *instrument) evenness(f, strength float64) float64 {
	wide := v.touch.position * float64(SampleRate) / f
	edge := v.touch.leaving(f, strength)
	var power float64
	for n := 1; n <= 40 && float64(n)*f < 16000; n++ {
		w := 2 * math.Pi * float64(n) * f / float64(SampleRate)
		rectangle := 2 * math.Sin(w*wide/2) / w
		p := rectangle * roundness(w*edge) * v.body.gain(float64(n)*f) * kGain(w) * 2 * f / float64(SampleRate)
		power += p * p
	}
	return math.Sqrt(power)
}

// roundness returns what the rounding of an edge leaves of a partial, x = ω·edge: the Fourier transform
// of half a cosine's slope, cos(x/2)/(1 − (x/π)²).
func roundness(x float64) float64 {
	if d := 1 - x*x/(math.Pi*math.Pi); math.Abs(d) > 1e-6 {
		return math.Cos(x/2) / d
	}
	return math.Pi / 4
}
