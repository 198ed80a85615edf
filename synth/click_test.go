package synth

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"sparetone/synth/measure"
	"sparetone/theory"
)

// Nothing steps where a string is stopped, plucked again, slurred or where the score ends: no two
// samples there are further apart than the string itself, just before, puts them.
func TestNoClickWhereAStringEnds(t *testing.T) {
	n := func(d time.Duration) int { return SampleRate.N(d) }
	const ms = time.Millisecond
	pitch := func(s string) theory.Pitch { return sounding(t, "1:"+s)[0].Pitch }
	for _, v := range voices {
		for name, c := range map[string]struct {
			score Score
			at    time.Duration // of the event
		}{
			"stopped": {Score{Plucks: []Pluck{{String: 1, Pitch: pitch("A4"), Strength: 0.8, Damp: 300 * ms}}, Length: 600 * ms}, 300 * ms},
			"ends":    {Score{Plucks: []Pluck{{String: 1, Pitch: pitch("A4"), Strength: 0.8}}, Length: 300 * ms}, 280 * ms},
			"hammered on": {Score{Plucks: []Pluck{
				{String: 1, Pitch: pitch("A4"), Strength: 0.8},
				{String: 1, Pitch: pitch("C5"), Strength: 1e-6, At: 300 * ms, Slur: true}, // the step of the stop alone
			}, Length: 600 * ms}, 300 * ms},
			"pulled off": {Score{Plucks: []Pluck{
				{String: 1, Pitch: pitch("C5"), Strength: 0.8},
				{String: 1, Pitch: pitch("A4"), Strength: 1e-6, At: 300 * ms, Slur: true},
			}, Length: 600 * ms}, 300 * ms},
			"plucked again": {Score{Plucks: []Pluck{
				{String: 1, Pitch: pitch("A4"), Strength: 0.8},
				{String: 1, Pitch: pitch("A4"), Strength: 1e-6, At: 300 * ms}, // what the old pluck leaves alone
			}, Length: 600 * ms}, 300 * ms},
		} {
			s, err := Render(c.score, v, Options{})
			if err != nil {
				t.Fatal(err)
			}
			x := append([]float64{0}, measure.Record(s, SampleRate).Samples...)
			x = append(x, 0) // silence before and after
			before := measure.HighestStep(x, n(c.at-60*ms), n(c.at-5*ms))
			if at := measure.HighestStep(x, n(c.at-5*ms), len(x)); at > before*1.05 {
				t.Errorf("%s %s: a step of %.5f, where the string makes %.5f", v.Name(), name, at, before)
			}
		}
	}
}

// A pluck starts no more abruptly than it goes on.
func TestNoClickWhereAStringBegins(t *testing.T) {
	for _, v := range voices {
		x := plucked(t, v, 69, Options{}).Samples
		const period = 110 // samples in a period of A4
		if first, next := measure.HighestStep(x, 0, period), measure.HighestStep(x, period, 4*period); first > 2*next {
			t.Errorf("%s: a step of %.4f in the first period, %.4f in the next three", v.Name(), first, next)
		}
	}
}

// Whatever is played, every sample is a number within full scale.
func TestNothingIsEverAboveFullScale(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for i := range 60 {
		score := anyScore(rng)
		for j := range score.Plucks {
			p := &score.Plucks[j]
			p.Pitch = midiPitch(24 + rng.IntN(84))
			p.Strength = 1 - rng.Float64()
			p.Slur = rng.IntN(4) == 0
		}
		s, err := Render(score, voices[i%len(voices)], Options{A4: 415 + 51*rng.Float64()})
		if err != nil {
			continue // a pitch out of range, which says so
		}
		for k, x := range measure.Record(s, SampleRate).Samples {
			if !(x >= -1 && x <= 1) {
				t.Fatalf("score %d: sample %d is %v", i, k, x)
			}
		}
	}
}

// A slur sounds the new pitch, in tune.
func TestSlurMovesThePitch(t *testing.T) {
	for _, v := range voices {
		for _, to := range []int{62, 76} {
			s, err := Render(Score{Plucks: []Pluck{
				{String: 1, Pitch: midiPitch(69), Strength: 0.8},
				{String: 1, Pitch: midiPitch(to), Strength: 0.8, At: 200 * time.Millisecond, Slur: true},
			}, Length: 1500 * time.Millisecond}, v, Options{})
			if err != nil {
				t.Fatal(err)
			}
			want := midiPitch(to).Frequency(440)
			if off := measure.Cents(measure.Record(s, SampleRate).Frequency(want, 0.5, 1), want); !(math.Abs(off) <= 0.1) {
				t.Errorf("%s: A4 slurred to %v is %.3f cents off", v.Name(), midiPitch(to), off)
			}
		}
	}
}
