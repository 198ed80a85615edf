package net

import (
	"math"
	"testing"
)

// sines returns a second and a half of sines of 16,000 samples a second, each of an amplitude, from a time on, falling by e in half a second.
func sines(all ...[3]float64) []float64 {
	out := make([]float64, 24000)
	for _, s := range all {
		hz, a, from := s[0], s[1], s[2]
		for i := range out {
			if t := float64(i)/16000 - from; t >= 0 {
				out[i] += a * math.Exp(-2*t) * math.Sin(2*math.Pi*hz*t)
			}
		}
	}
	return out
}

// One string's partial begins once and falls smoothly, where it should lie or beside it; what a second string shares rises again, and beats.
func TestTrail(t *testing.T) {
	values := func(samples []float64) []float32 {
		return newTrail(samples, 16000, 0.23, 1.35, 330).values(nil, 0.3, 1.35, 330, 0.01)
	}
	n := len(shortAt)
	one := values(sines([3]float64{330, 0.1, 0.3}))
	if len(one) != perPartial {
		t.Fatalf("%d values", len(one))
	}
	if one[0] > -0.2 || one[1] < 0.7 || one[3] < 0.85 {
		t.Errorf("it begins with %.2f", one[:n])
	}
	if one[n] < 0.85 || one[n+1] < 0.6 || one[n+1] > one[n] {
		t.Errorf("it goes on with %.2f", one[n:n+2])
	}
	if one[n+2] > -0.9 || one[n+3] > -0.9 {
		t.Errorf("one sine strays by %.2f", one[n+2:n+4])
	}
	if off := one[n+4]; math.Abs(float64(off)) > 0.02 {
		t.Errorf("it lies %.1f cents off", 30*off)
	}
	if off := values(sines([3]float64{330 * math.Exp2(12.0/1200), 0.1, 0.3}))[n+4]; math.Abs(float64(off)*30-12) > 0.5 {
		t.Errorf("12 cents off are %.1f", 30*off)
	}
	two := values(sines([3]float64{330, 0.1, 0.3}, [3]float64{333, 0.1, 0.4}))
	if two[n+2] < one[n+2]+0.3 || two[n+3] < one[n+3]+0.3 {
		t.Errorf("two sines stray by %.2f", two[n+2:n+4])
	}
	if late := values(sines([3]float64{330, 0.1, 0.42})); late[3] > 0 || late[n-1] < 0.7 {
		t.Errorf("what begins later begins with %.2f", late[:n])
	}
}

// A string is masked by the nearest that is struck an octave or a few partials below it, and the net takes what it is given.
func TestMasked(t *testing.T) {
	sounds := func(all ...int) func(int) bool {
		return func(semitones int) bool {
			for _, s := range all {
				if s == semitones {
					return true
				}
			}
			return false
		}
	}
	for _, c := range []struct{ want, got int }{
		{0, MaskedBy(sounds(-7, -5, 4, 12))},
		{12, MaskedBy(sounds(-24, -12))},
		{19, MaskedBy(sounds(-19, -31))},
		{31, MaskedBy(sounds(-31))},
	} {
		if c.got != c.want {
			t.Errorf("masked by %d, want %d", c.got, c.want)
		}
	}
	if n := OfMasked(); n.Inputs != MaskedInputs {
		t.Errorf("the net takes %d values, want %d", n.Inputs, MaskedInputs)
	}
	samples := sines([3]float64{165, 0.1, 0.3}, [3]float64{330, 0.1, 0.3})
	a := NewAnalyser(16000)
	spectra := StrumSpectra(a, samples, 0.3, 0)
	got := Masked(nil, samples, 16000, 0.3, StrumEnd(0.3, 0), 330, sounds(-12), spectra)
	if len(got) != MaskedInputs {
		t.Fatalf("%d values, want %d", len(got), MaskedInputs)
	}
	// The first partial followed is the lower string's first, the second its third, which is not there.
	middle := len(shortAt)
	if got[middle] < 0.7 || got[perPartial+middle] > 0 {
		t.Errorf("beside the shared partials there is %.2f and %.2f", got[middle], got[perPartial+middle])
	}
	for i, a := range around {
		if is := got[followed*perPartial+i] > 0; is != (a == -12) {
			t.Errorf("that a string sounds %d semitones above is %v", a, is)
		}
	}
	if StrumEnd(0.3, 0.8) != 0.8 || StrumEnd(0.3, 0) != 0.3+StrumTime || StrumEnd(0.3, 5) != 0.3+StrumTime {
		t.Error("a stroke ends where the next begins, or when all was looked at")
	}
}
