package synth

import (
	"math"
	"math/rand/v2"
	"testing"
)

// oneHalf returns a score whose tones are all played together, and how many they are.
func oneHalf(score Score, v Voice, a4 float64) (h *half, tones int) {
	p := newPlaying(score, v, a4)
	p.halves[1].load = math.Inf(1) // so that the first half gets them all
	p.pluckBefore(p.length)
	return &p.halves[0], len(p.ringing)
}

// wholly returns what a score sounds like whose tones are all played together.
func wholly(score Score, v Voice, a4 float64) []float64 {
	h, _ := oneHalf(score, v, a4)
	made := make([]float64, SampleRate.N(score.Length))
	h.fill(made)
	return made
}

// A score played in halves sounds as it does when all its strings are played together.
func TestHalvesMakeTheWhole(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 33))
	for i := range 20 {
		score, v := anyScore(rng), voices[i%len(voices)]
		whole := wholly(score, v, 440)
		p := newPlaying(score, v, 440)
		halves := make([]float32, p.length)
		p.perform(halves, &meter{})
		var peak, off float64
		for n, x := range whole {
			peak, off = max(peak, math.Abs(x)), max(off, math.Abs(x-float64(halves[n])))
		}
		if peak == 0 || off > 1e-6*peak {
			t.Errorf("score %d, %s: up to %.2g off of %.2g", i, v.Name(), off, peak)
		}
	}
}

// brittle is a voice of which a tone breaks.
type brittle struct {
	Voice
	broken, plucked int
}

func (v *brittle) Ready() Performer { return v }

func (v *brittle) Pluck(float64, int, float64) []Tone {
	v.plucked++
	return []Tone{&brittleTone{end: 1 << 30, breaks: v.plucked == v.broken}}
}

type brittleTone struct {
	end    int
	breaks bool
}

func (t *brittleTone) Span() (start, end int)     { return 0, t.end }
func (t *brittleTone) Still(at int)               { t.end = min(t.end, at) }
func (t *brittleTone) Slur(float64, int, float64) {}
func (t *brittleTone) Sound([]float64, int) {
	if t.breaks {
		panic("a string broke")
	}
}

// What goes wrong in either half is raised where the sound was asked for.
func TestFaultsOfAHalf(t *testing.T) {
	for broken := range 4 {
		func() {
			defer func() {
				if r := recover(); r != "a string broke" {
					t.Errorf("string %d: %v", broken, r)
				}
			}()
			v := &brittle{Voice: voices[0], broken: broken + 1}
			p := newPlaying(Hand{}.Block(sounding(t, "4:G4 3:C4 2:E4 1:C5")), v, 440)
			p.perform(make([]float32, p.length), &meter{})
		}()
	}
}
