package net

import (
	"bytes"
	"math"
	"math/rand/v2"
	"testing"
)

// A tone has its level at its frequency, and its cents.
func TestSpectrum(t *testing.T) {
	const rate = 48000.0
	a := NewAnalyser(rate)
	tone := make([]float64, int(rate))
	f := 440 * math.Exp2(13.0/1200)
	for i := range tone {
		tone[i] = 0.3 * math.Sin(2*math.Pi*f*float64(i)/rate)
	}
	s := a.Spectrum(tone, 0.2, 0.7)
	if got := 10 * math.Log10(s.at(f, levelPart)/0.09); math.Abs(got) > 1 {
		t.Errorf("a tone of 0.3 is %.2f dB off", got)
	}
	if got := 10 * math.Log10(s.at(f*semitone, levelPart)/0.09); got > -40 {
		t.Errorf("a semitone beside it there is %.1f dB", got)
	}
	if got := Cents(440, s); math.Abs(got-13) > 0.5 {
		t.Errorf("%.2f cents, want 13", got)
	}
	if got := Cents(442, s); math.Abs(got-(13-1200*math.Log2(442.0/440))) > 0.5 {
		t.Errorf("%.2f cents from A4 at 442 Hz", got)
	}
	if got := Cents(440, a.Spectrum(make([]float64, 9), 0, 0.5)); got != 0 {
		t.Errorf("silence is %.2f cents off", got)
	}
	// The noise under a tone is found beside it, and what lies before the first sample is silence.
	r := rand.New(rand.NewPCG(1, 1))
	for i := range tone {
		tone[i] += 0.01 * r.NormFloat64()
	}
	want := 10 * math.Log10(1e-4*highestHz/(rate/2))
	if got := 10 * math.Log10(a.Spectrum(tone, 0.2, 0.7).Noise()); math.Abs(got-want) > 1.5 {
		t.Errorf("noise of %.1f dB, want %.1f", got, want)
	}
	if got := a.Spectrum(tone, -1, -0.5).loudest(); got != 0 {
		t.Errorf("before the first sample there is %v", got)
	}
}

// Where a note's partials are its levels are high, and low between and beside them.
func TestLevels(t *testing.T) {
	const rate = 48000.0
	tone := make([]float64, int(rate/2))
	for i := range tone {
		for n := 1; n <= partials; n++ {
			tone[i] += 0.05 * math.Sin(2*math.Pi*220*float64(n)*float64(i)/rate)
		}
	}
	got := Levels(nil, 220, NewAnalyser(rate).Spectrum(tone, 0, 0.5))
	if len(got) != PerSpectrum {
		t.Fatalf("%d levels", len(got))
	}
	for i, level := range got {
		beside := i >= partials && places[i] != math.Round(places[i])
		if i < partials && level < 0.9 || beside && i < 4*partials && level > 0 {
			t.Errorf("at %.3f times the frequency the level is %.2f", places[i], level)
		}
	}
}

// Weights are read as they were written, and what is none is refused.
func TestWeights(t *testing.T) {
	n := New(5)
	r := rand.New(rand.NewPCG(2, 2))
	for _, part := range n.Weights() {
		for i := range part {
			part[i] = float32(r.NormFloat64())
		}
	}
	b := n.Marshal()
	again, err := Parse(b)
	if err != nil || !bytes.Equal(again.Marshal(), b) {
		t.Fatal(err)
	}
	if in := []float32{1, 2, 3, 4, 5}; again.Odds(in) != n.Odds(in) {
		t.Error("it judges otherwise")
	}
	for _, wrong := range [][]byte{nil, []byte("hear net 2\n1234"), b[:len(b)-1], append(bytes.Clone(b), 0), append([]byte(mark), 0xFF, 0xFF, 0, 0)} {
		if _, err := Parse(wrong); err == nil {
			t.Errorf("%d bytes are taken", len(wrong))
		}
	}
}

// The nets that are built in take the levels that they are given, and stay as they are until others are made.
func TestBuiltInNets(t *testing.T) {
	if n := Strum(); n.Inputs != StrumInputs {
		t.Errorf("%d levels of strokes", n.Inputs)
	}
	if n := Pluck(); n.Inputs != PluckInputs {
		t.Errorf("%d levels of plucks", n.Inputs)
	}
}

// What a layer computes, by hand.
func TestOdds(t *testing.T) {
	n := New(2)
	n.W1[0], n.W1[1], n.B1[0] = 2, 1, -1 // 2a + b - 1
	n.W1[2], n.B1[1] = 1, -10            // a - 10: below zero
	n.W2[0], n.W2[1] = 3, 100
	n.W3[0], n.B3[0] = 0.5, 0.25
	a, b := float32(4), float32(2)
	want := 0.25 + 0.5*(3*9+100*Leak*-6)
	if got := n.Odds([]float32{a, b}); math.Abs(got-want) > 1e-5 {
		t.Errorf("%v, want %v", got, want)
	}
}
