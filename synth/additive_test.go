package synth_test

import (
	"math"
	"math/cmplx"
	"slices"
	"testing"
	"time"

	"sparetone/synth"
	"sparetone/theory"
)

// additive is a voice that is no string: it sounds the partials that another voice states, and nothing else.
type additive struct{ of synth.Voice }

func (v additive) Name() string                                 { return v.of.Name() + " by its partials" }
func (v additive) Title() string                                { return v.of.Title() + ", by its partials" }
func (v additive) Partials(f, strength float64) []synth.Partial { return v.of.Partials(f, strength) }
func (v additive) Ready() synth.Performer                       { return v }
func (v additive) Pluck(f float64, at int, s float64) []synth.Tone {
	tone := &sines{start: at, end: math.MaxInt, pitch: f}
	for _, p := range v.Partials(f, s) {
		tone.add(p, 1-p.Early, p.Decay)
		tone.add(p, p.Early, p.Decay+p.EarlyDecay)
	}
	return []synth.Tone{tone}
}

// sines are the partials of one pluck.
type sines struct {
	start, end int
	pitch      float64      // Hz
	now, turn  []complex128 // of each partial, and how it moves with each sample
	slurs      []slur
}

// slur is that a note sounds another pitch from a sample on: all partials then turn faster or slower.
type slur struct {
	at    int
	times float64
}

func (s *sines) add(p synth.Partial, part, decay float64) {
	if part > 0 {
		s.now = append(s.now, cmplx.Rect(part*math.Pow(10, p.Level/20), -math.Pi/2)) // from 0, so that nothing clicks
		s.turn = append(s.turn, complex(-decay, 2*math.Pi*p.Frequency)/complex(float64(synth.SampleRate), 0))
	}
}

func (s *sines) Span() (start, end int) { return s.start, s.end }
func (s *sines) Still(at int)           { s.end = min(s.end, at) }
func (s *sines) Slur(f float64, at int, _ float64) {
	s.slurs = append(s.slurs, slur{at, f / s.pitch})
	s.pitch = f
}

func (s *sines) Sound(mix []float64, at int) {
	for len(s.slurs) > 0 && s.slurs[0].at < at+len(mix) {
		if n := s.slurs[0].at - at; n > 0 {
			s.ring(mix[:n])
			mix, at = mix[n:], at+n
		}
		for i, w := range s.turn {
			s.turn[i] = complex(real(w), imag(w)*s.slurs[0].times)
		}
		s.slurs = s.slurs[1:]
	}
	s.ring(mix)
}

func (s *sines) ring(mix []float64) {
	for i := range s.now {
		x, step := s.now[i], cmplx.Exp(s.turn[i])
		for n := range mix {
			mix[n] += real(x)
			x *= step
		}
		s.now[i] = x
	}
}

func pitch(t testing.TB, name string) theory.Pitch {
	t.Helper()
	p, err := theory.ParsePitch(name)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func render(t testing.TB, score synth.Score, v synth.Voice) *synth.Sound {
	t.Helper()
	s, err := synth.Render(score, v, synth.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Something else than a string is a voice: it is in tune, as loud as all else, slurred and stopped as a string is. And as it
// is made of what a string states, it is as bright as that string.
func TestAnotherVoice(t *testing.T) {
	t.Parallel()
	for _, v := range synth.Voices() {
		other := additive{v}
		note := synth.Score{Plucks: []synth.Pluck{
			{String: 1, Pitch: pitch(t, "A4"), Strength: 0.75, Damp: 1700 * time.Millisecond},
			{String: 1, Pitch: pitch(t, "B4"), Strength: 0.75, At: time.Second, Slur: true},
		}, Length: 2 * time.Second}
		rewound := func(s *synth.Sound) *synth.Sound {
			if err := s.Seek(0); err != nil {
				t.Fatal(err)
			}
			return s
		}
		s, model := render(t, note, other), render(t, note, v)
		for _, c := range []struct{ want, from, to float64 }{{440, 0.1, 0.8}, {440 * math.Exp2(2.0/12), 1.1, 1.5}} {
			got := synth.FrequencyOf(rewound(s), c.want, c.from, c.to)
			if off := 1200 * math.Log2(got/c.want); math.Abs(off) > 0.1 {
				t.Errorf("%s sounds %.3f Hz, %.3f cents beside %.3f Hz", other.Name(), got, off, c.want)
			}
		}
		if lufs, peak := synth.LoudnessOf(rewound(s)); math.Abs(lufs-synth.Loudness) > 0.5 || peak > synth.TruePeak+0.05 {
			t.Errorf("%s is %.1f LUFS loud and peaks at %.1f dBTP", other.Name(), lufs, peak)
		}
		for _, at := range []float64{0.05, 0.5} {
			got, want := synth.BrightnessOf(rewound(s), at), synth.BrightnessOf(rewound(model), at)
			if got/want > 1.1 || want/got > 1.1 {
				t.Errorf("%s: after %v s the spectrum's centre is at %.0f Hz, the string's at %.0f", other.Name(), at, got, want)
			}
		}
		if levels := s.Levels(1600 * time.Millisecond); len(levels) != 1 || levels[1] != model.Levels(1600 * time.Millisecond)[1] {
			t.Errorf("%s: before it is stopped the string moves by %v, the model's by %v", other.Name(), levels, model.Levels(1600*time.Millisecond))
		}
		if levels := s.Levels(1800 * time.Millisecond); len(levels) != 0 {
			t.Errorf("%s: after it is stopped the string moves by %v", other.Name(), levels)
		}
		heard := make([][2]float64, 2*synth.SampleRate)
		if n, _ := rewound(s).Stream(heard); slices.ContainsFunc(heard[n-4800:n], func(x [2]float64) bool { return x[0] != 0 }) {
			t.Errorf("%s sounds on after it was stopped", other.Name())
		}
	}
}
