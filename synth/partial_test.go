package synth

import (
	"cmp"
	"math"
	"math/cmplx"
	"slices"
	"testing"
	"time"

	"sparetone/synth/measure"
)

// summed is what stated partials up to some frequency sound like together.
func summed(partials []Partial, highest float64, seconds float64) measure.Recording {
	r := measure.Recording{Rate: float64(SampleRate), Samples: make([]float64, int(seconds*float64(SampleRate)))}
	for _, p := range partials {
		if p.Frequency > highest {
			continue
		}
		for _, part := range []struct{ amplitude, decay float64 }{{1 - p.Early, p.Decay}, {p.Early, p.Decay + p.EarlyDecay}} {
			x := complex(Decibels(p.Level)*part.amplitude, 0)
			step := cmplx.Exp(complex(-part.decay/r.Rate, 2*math.Pi*p.Frequency/r.Rate))
			for i := range r.Samples {
				r.Samples[i] += real(x)
				x *= step
			}
		}
	}
	return r
}

// What a voice states of a note's partials is measured in its sound: of partials 1 to 12 the frequency within a quarter of a
// cent, the level 50, 200 and 500 ms after the pluck within 0.3 dB, wherever the partial is then within 50 dB of the
// strongest. Those of a course's two strings beat, and may be a dB off where they all but cancel each other.
func TestPartialsAreAsStated(t *testing.T) {
	t.Parallel()
	for _, v := range voices {
		offCents, offLevel, compared := 0.0, 0.0, 0
		within := 0.3
		if len(v.Partials(440, 0.5)) > 1 && v.Partials(440, 0.5)[1].Frequency < 450 {
			within = 1
		}
		for _, midi := range []int{40, 52, 60, 67, 76, 81} {
			for _, strength := range []float64{0.4, 0.9} {
				f := midiPitch(midi).Frequency(440)
				stated := v.Partials(f, strength)
				sound := wholly(Score{Plucks: []Pluck{{String: 1, Pitch: midiPitch(midi), Strength: strength}}, Length: time.Second}, v, 440)
				heard, said := measure.Recording{Rate: float64(SampleRate), Samples: sound}, summed(stated, 12.5*f, 1)
				n := int(max(2400, 8/f*heard.Rate))
				for _, at := range []float64{0.05, 0.2, 0.5} {
					x, y := heard.Part(at, n), said.Part(at, n)
					strongest := 0.0
					for k := 1; k <= 12; k++ {
						strongest = max(strongest, cmplx.Abs(heard.At(x, f*float64(k))))
					}
					for k := 1; k <= 12 && float64(k)*f < highestPartial; k++ {
						got, want := cmplx.Abs(heard.At(x, f*float64(k))), cmplx.Abs(said.At(y, f*float64(k)))
						if got < strongest*Decibels(-50) {
							continue
						}
						compared++
						off := 20 * math.Log10(got/want)
						offLevel = max(offLevel, math.Abs(off))
						if math.Abs(off) > within {
							t.Errorf("%s %v at %v: partial %d is %.2f dB stronger after %v s than stated", v.Name(), midiPitch(midi), strength, k, off, at)
						}
						if at != 0.05 {
							continue
						}
						apart := measure.Cents(heard.Frequency(f*float64(k), 0.05, 0.25), said.Frequency(f*float64(k), 0.05, 0.25))
						offCents = max(offCents, math.Abs(apart))
						if math.Abs(apart) > 0.25 {
							t.Errorf("%s %v at %v: partial %d is %.2f cents above what is stated", v.Name(), midiPitch(midi), strength, k, apart)
						}
					}
				}
			}
		}
		t.Logf("%s: %d levels within %.2f dB, frequencies within %.3f cents", v.Name(), compared, offLevel, offCents)
	}
}

// Stated are the partials up to 16 kHz that are within 60 dB of the strongest as the note is plucked, from the lowest up.
func TestWhichPartialsAreStated(t *testing.T) {
	highest, widest := 0.0, 0.0
	for _, v := range voices {
		for midi := 40; midi <= 88; midi += 3 {
			all := v.Partials(midiPitch(midi).Frequency(440), 0.9)
			strongest := slices.MaxFunc(all, func(p, q Partial) int { return cmp.Compare(p.Level, q.Level) }).Level
			for i, p := range all {
				if i > 0 && p.Frequency <= all[i-1].Frequency {
					t.Errorf("%s %v: partials at %.1f and then at %.1f Hz", v.Name(), midiPitch(midi), all[i-1].Frequency, p.Frequency)
				}
				highest, widest = max(highest, p.Frequency), max(widest, strongest-p.Level)
			}
		}
	}
	if highest > 16_010 || highest < 15_900 || widest > 60 || widest < 59 {
		t.Errorf("partials are stated up to %.0f Hz and %.1f dB below the strongest", highest, widest)
	}
}

// Both parts of a decay are in the level after a while: a tenth of a second at 10/s is 8.7 dB, and of a part that is half, and
// falls by 60 dB more, 6 dB are left to fall.
func TestLevelOfAPartial(t *testing.T) {
	for want, p := range map[float64]Partial{
		-28.69: {Level: -20, Decay: 10},
		-34.70: {Level: -20, Decay: 10, Early: 0.5, EarlyDecay: 69.08},
	} {
		if got := p.After(0.1); math.Abs(got-want) > 0.02 {
			t.Errorf("%+v: %.2f dB, want %.2f", p, got, want)
		}
	}
}
