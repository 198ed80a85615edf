package synth

import (
	"cmp"
	"math"
	"math/cmplx"
	"slices"
)

// Partial is one of the sinusoids that a plucked note is made of, until it is stopped.
type Partial struct {
	Frequency  float64 // Hz
	Level      float64 // dB, of its amplitude at the pluck, on a scale of the voice's own: only differences mean something
	Decay      float64 // 1/s: its amplitude falls as e^(−Decay·t)
	Early      float64 // the part of its amplitude at the pluck, 0 to below 1, that dies away faster
	EarlyDecay float64 // how much faster, 1/s
}

// After returns the level in dB t seconds after the pluck, on the scale of Level.
func (p Partial) After(t float64) float64 {
	return p.Level + 20*math.Log10(p.left(t)) - 20*math.Log10(math.E)*p.Decay*t
}

// left returns how much of the amplitude the early decay has left t seconds after the pluck.
func (p Partial) left(t float64) float64 { return early{p.Early, p.EarlyDecay}.left(t) }

// The partials that a modelled instrument states.
const (
	highestPartial = 16000.0 // Hz
	weakestPartial = 60.0    // dB below the strongest of the note
)

// Partials returns what a note of f Hz is made of, as the model has it: a loop sounds where a round trip changes nothing,
// at each w for which its response is 1. There w is complex, and its imaginary part says how fast the partial dies away.
// How strong it is follows from what the pluck sends in and from how the response changes about w (the residue of the
// pole that the loop has there). Of both strings of a course each has its own.
func (v *instrument) Partials(f, strength float64) (partials []Partial) {
	pluck := v.released(f, strength, 1)
	strongest := math.Inf(-1)
	for i := range v.stringsInCourse() {
		own := v.pitch(f, i)
		rt := newRoundTrip(own, func(partial float64) float64 { return v.decay(partial, own) })
		for k := 1; float64(k)*own < highestPartial; k++ {
			w, slope := rt.pole(2 * math.Pi * float64(k) * own / float64(SampleRate))
			var in complex128
			for n, x := range pluck {
				in += complex(x, 0) * turned(w, n)
			}
			frequency := real(w) / (2 * math.Pi) * float64(SampleRate)
			p := Partial{
				Frequency: frequency, Decay: imag(w) * float64(SampleRate), Early: v.early.part, EarlyDecay: v.early.rate,
				Level: 20 * math.Log10(2*cmplx.Abs(in)*v.body.gain(frequency)/cmplx.Abs(slope)),
			}
			partials = append(partials, p)
			strongest = max(strongest, p.Level)
		}
	}
	partials = slices.DeleteFunc(partials, func(p Partial) bool { return p.Level < strongest-weakestPartial })
	slices.SortFunc(partials, func(p, q Partial) int { return cmp.Compare(p.Frequency, q.Frequency) })
	return partials
}

// pole returns the complex w, in radians a sample, near the given one at which the round trip's response is 1, and how
// fast the response changes there with w.
func (rt roundTrip) pole(near float64) (w, slope complex128) {
	w = complex(near, 0)
	for range 6 { // Newton's method; after three steps nothing moves any more
		var h complex128
		slope = 0
		for i, c := range rt.fir {
			part := complex(c, 0) * turned(w, rt.delay+i)
			h += part
			slope -= complex(0, float64(rt.delay+i)) * part
		}
		w -= (h - 1) / slope
	}
	return w, slope
}

// turned returns e^(−i·w·n).
func turned(w complex128, n int) complex128 { return cmplx.Exp(complex(0, -float64(n)) * w) }
