package net

import (
	"math"
	"testing"
)

// A tone is as strong in a spectrum as it is, at any rate and as high as a spectrum shows; one that would be folded back is not there.
func TestHalvedSoundKeepsItsTones(t *testing.T) {
	for _, c := range []struct {
		rate   float64
		halved int
	}{{8000, 0}, {16000, 0}, {30200, 0}, {30300, 1}, {32000, 1}, {44100, 1}, {48000, 1}, {64000, 2}, {96000, 2}, {192000, 3}} {
		a := NewAnalyser(c.rate)
		if got := len(a.halvers); got != c.halved {
			t.Errorf("%v samples a second are halved %d times, want %d", c.rate, got, c.halved)
		}
		for _, f := range []float64{61, 440, 2990, 5990, 7100} {
			if f > c.rate/2 {
				continue
			}
			s := a.Spectrum(sine(c.rate, f, 0.3), 0.2, 0.7)
			if got := 10 * math.Log10(s.at(f, levelPart)/0.09); got > 0.05 || got < -1 {
				t.Errorf("%v Hz at %v samples a second: a tone of 0.3 is %.2f dB off", f, c.rate, got)
			}
			if peaks := s.Peaks(f/1.01, f*1.01, 20); f < highestHz && (len(peaks) != 1 || math.Abs(1200*math.Log2(peaks[0].Hz/f)) > 0.6) {
				t.Errorf("%v Hz at %v samples a second: %v", f, c.rate, peaks)
			}
		}
		half := c.rate / math.Exp2(float64(c.halved))
		for _, over := range []float64{700, 2000, 5000, 7000} {
			if f := half - over; c.halved > 0 && f > half/2 {
				if got := 10 * math.Log10(a.Spectrum(sine(c.rate, f, 0.3), 0.2, 0.7).loudest()/0.09); got > -70 {
					t.Errorf("%v Hz at %v samples a second is folded back at %.1f dB", f, c.rate, got)
				}
			}
		}
	}
}

func sine(rate, hz, amplitude float64) []float64 {
	out := make([]float64, int(rate))
	for i := range out {
		out[i] = amplitude * math.Sin(2*math.Pi*hz*float64(i)/rate)
	}
	return out
}

// What is halved stands where it stood: a click in the middle of a window is heard as strong as the window is there, one outside of it not at all.
func TestHalvedSoundStandsWhereItStood(t *testing.T) {
	for _, rate := range []float64{16000, 48000, 96000} {
		a := NewAnalyser(rate)
		strength := func(at float64) float64 {
			sound := make([]float64, int(rate))
			sound[int(math.Round(at*rate))] = 1
			return math.Sqrt(a.Spectrum(sound, 0.2, 0.7).at(3000, levelPart)) * rate / 8
		}
		for at, want := range map[float64]float64{0.45: 1, 0.325: 0.5, 0.575: 0.5, 0.26: math.Pow(math.Sin(math.Pi*0.12), 2), 0.19: 0, 0.71: 0} {
			if got := strength(at); math.Abs(got-want) > 0.003 {
				t.Errorf("%v samples a second: a click at %v s is heard as %.4f, want %.4f", rate, at, got, want)
			}
		}
		// The end of the samples is silence behind it, whatever the filter reaches over.
		if s := a.Spectrum(sine(rate, 440, 0.3)[:int(0.5*rate)], 0.2, 0.7); s.at(440, levelPart) < 0.01 {
			t.Errorf("%v samples a second: nothing is heard of a tone that ends", rate)
		}
	}
}

// Transforms are even, made of small factors, and never a power of two.
func TestTransformSize(t *testing.T) {
	for least, want := range map[int]int{16: 18, 4000: 4000, 4095: 4320, 10000: 10000, 13781: 13824, 15000: 15000, 16384: 17280, 16001: 16200, 30000: 30000} {
		if got := transformSize(least); got != want {
			t.Errorf("for %d: %d, want %d", least, got, want)
		}
	}
}
