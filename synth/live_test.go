package synth

import (
	"math"
	"slices"
	"testing"
	"time"
)

// struck is a score of one beat in which all these strings are plucked at once, as hard as it says, and stilled.
func struck(t *testing.T, strength float64, strings string) Score {
	s := Score{Length: 500 * time.Millisecond}
	for _, at := range sounding(t, strings) {
		s.Plucks = append(s.Plucks, Pluck{String: at.String, Pitch: at.Pitch, Strength: strength, Damp: 400 * time.Millisecond})
	}
	return s
}

// What turns out louder than the samples it was measured by is played more softly from there on, never above the limit; from the
// beginning it is as it was.
func TestLiveIsSoftenedWhereItIsLouder(t *testing.T) {
	quiet, loud := struck(t, 0.3, "1:A4"), struck(t, 1, "4:A4 3:A4 2:A4 1:A4")
	scores := []Score{quiet, quiet, loud, quiet, quiet, {}}
	most := math.Pow(10, TruePeak/20)
	for _, v := range voices {
		measured := func(samples ...Score) [][]float64 {
			s, err := RenderLive(func(n int) (Score, []Stilled) { return scores[min(n, len(scores)-1)], nil }, v, Options{}, samples...)
			if err != nil {
				t.Fatal(err)
			}
			var runs [][]float64
			for range 2 {
				var all []float64
				var buf [500][2]float64
				for n, ok := s.Stream(buf[:]); ok && n > 0; n, ok = s.Stream(buf[:]) {
					for _, x := range buf[:n] {
						all = append(all, x[0])
					}
				}
				runs = append(runs, all)
				if err := s.Seek(0); err != nil {
					t.Fatal(err)
				}
			}
			return runs
		}
		runs := measured(quiet)
		if !slices.Equal(runs[0], runs[1]) {
			t.Errorf("%s: played again from the beginning, it is another sound", v.Name())
		}
		all := runs[0]
		beat := func(n int) float64 { // the highest sample of a beat
			part, peak := all[SampleRate.N(time.Duration(n)*500*time.Millisecond):SampleRate.N(time.Duration(n+1)*500*time.Millisecond)], 0.0
			for _, x := range part {
				peak = max(peak, math.Abs(x))
			}
			return peak
		}
		if peak := beat(2); peak > most+1e-6 || peak < 0.9*most {
			t.Errorf("%s: the loud beat reaches %.3f, want just %.3f", v.Name(), peak, most)
		}
		if before, after := beat(1), beat(4); after > 0.8*before {
			t.Errorf("%s: %.3f before the loud beat and %.3f after it: it was softened at once and for good", v.Name(), before, after)
		}
		known := measured(quiet, loud)[0]
		for i, x := range known {
			if math.Abs(x) > most+1e-6 {
				t.Fatalf("%s: sample %d at %.3f, which was measured", v.Name(), i, x)
			}
		}
		if ratio := math.Abs(known[SampleRate.N(50*time.Millisecond)] / all[SampleRate.N(50*time.Millisecond)]); ratio > 0.95 {
			t.Errorf("%s: with the loud beat among its samples it begins %.2f times as loud as without", v.Name(), ratio)
		}
	}
	for _, samples := range [][]Score{nil, {{Length: time.Second}}} {
		if _, err := RenderLive(func(int) (Score, []Stilled) { return quiet, nil }, voices[0], Options{}, samples...); err == nil {
			t.Errorf("%d scores without a pluck: no error", len(samples))
		}
	}
}
