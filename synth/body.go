package synth

import (
	"math"
	"math/cmplx"
)

// body is what a bridge drives: a box with a few strong resonances among many weak ones. The weak ones
// are taken together as one path that favours no pitch, so that every note is answered alike.
//
// A string and a body in series may change places, for both are linear: the pluck is sent through the
// body first and the result into the string (commuted synthesis; Smith, "Efficient synthesis of stringed
// musical instruments", Proc. ICMC 1993; Karjalainen, Välimäki and Jánosy, same proceedings). The body
// then costs nothing while the string rings.
type body struct {
	lowest float64 // Hz, below which the body does not answer
	bright float64 // Hz, above which the top's mass takes more and more away, 6 dB an octave
	modes  []mode
}

// mode is one resonance of a body.
type mode struct {
	frequency float64 // Hz
	bandwidth float64 // Hz, between the points 3 dB down
	gain      float64 // at its peak, against the many weak ones together
}

// The first modes of bodies: the air in the sound hole, then the top, then the top's next shapes.
var (
	// A guitar: the three lowest modes and their bandwidths as in Smith, Physical Audio Signal Processing,
	// "Building a synthetic guitar bridge admittance" (96.52, 189.33 and 219.95 Hz, measured on a guitar;
	// 20, 40 and 50 Hz wide). Those above, and all gains: from memory.
	largeBody = body{lowest: 70, bright: 8000, modes: []mode{
		{96.52, 20, 1.2}, {189.33, 40, 1.5}, {219.95, 50, 1.2}, {390, 60, 0.9}, {560, 80, 0.7}, {820, 130, 0.6},
	}}
	// A ukulele: air and top about an octave above a guitar's, as its size has it; from memory.
	smallBody = body{lowest: 150, bright: 8000, modes: []mode{
		{198, 30, 1.0}, {385, 45, 1.5}, {610, 75, 1.1}, {905, 110, 0.9}, {1350, 170, 0.7},
	}}
	// A tenor ukulele: between the two; from memory.
	middleBody = body{lowest: 120, bright: 8000, modes: []mode{
		{165, 26, 1.1}, {312, 42, 1.5}, {505, 65, 1.0}, {760, 100, 0.8}, {1150, 150, 0.6},
	}}
	// A mandolin: stiff and carved, with an air mode as low as a ukulele's; from memory.
	carvedBody = body{lowest: 150, bright: 9000, modes: []mode{
		{205, 30, 0.8}, {415, 50, 1.4}, {690, 80, 1.2}, {1080, 140, 1.1}, {1720, 220, 0.9},
	}}
	// No body: the string itself.
	noBody = body{lowest: 20, bright: 20000}
)

// respond turns x into what the body makes of it.
func (b body) respond(x []float64) {
	high := make([]float64, len(x))
	highPass(b.lowest).add(high, x, 1)
	copy(x, high)
	for modes := b.modes; len(modes) > 0; modes = modes[min(2, len(modes)):] {
		if len(modes) == 1 {
			modes[0].resonance().add(x, high, modes[0].gain)
		} else {
			addBoth(x, high, modes[0], modes[1])
		}
	}
	dull := onePole(b.bright)
	var s float64
	for i, v := range x {
		s += dull * (v - s)
		x[i] = s
	}
}

// addBoth adds to y what two modes make of x. Each of a resonance's samples waits for the one before, and two
// can wait together: a pluck takes half the time so.
func addBoth(y, x []float64, one, two mode) {
	p, q := one.resonance(), two.resonance()
	var x1, x2, p1, p2, q1, q2 float64
	for i, v := range x {
		d := v - x2 // b1 is 0 and b2 is −b0
		p1, p2 = p.b0*d-p.a2*p2-p.a1*p1, p1
		q1, q2 = q.b0*d-q.a2*q2-q.a1*q1, q1
		y[i] += one.gain*p1 + two.gain*q1
		x1, x2 = v, x1
	}
}

// resonance returns the mode's filter, with a gain of 1 at its peak.
func (m mode) resonance() biquad { return resonance(m.frequency, m.bandwidth) }

// gain returns how strongly the body answers f Hz.
func (b body) gain(f float64) float64 {
	w := 2 * math.Pi * f / float64(SampleRate)
	h := complex(1, 0)
	for _, m := range b.modes {
		h += complex(m.gain, 0) * m.resonance().response(w)
	}
	h *= highPass(b.lowest).response(w)
	p := biquad{b0: onePole(b.bright), a1: onePole(b.bright) - 1}
	return cmplx.Abs(h * p.response(w))
}

// length returns how many samples it takes the body to die away by 60 dB.
func (b body) length() int {
	narrowest := b.lowest
	for _, m := range b.modes {
		narrowest = min(narrowest, m.bandwidth)
	}
	// A resonance falls as e^(−π·bandwidth·t).
	return int(math.Log(1000) / (math.Pi * narrowest) * float64(SampleRate))
}

// onePole returns the coefficient of a first-order low-pass at f Hz.
func onePole(f float64) float64 { return 1 - math.Exp(-2*math.Pi*f/float64(SampleRate)) }
