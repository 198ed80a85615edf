package synth

import (
	"math"
	"math/rand/v2"
	"testing"
)

// A score played in halves sounds as it does when all its strings are played together.
func TestHalvesMakeTheWhole(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 33))
	for i := range 20 {
		score, v := anyScore(rng), voices[i%len(voices)]
		p := newPlaying(score, v, 440)
		whole := make([]float64, p.length)
		p.fill(whole)
		p = newPlaying(score, v, 440)
		halves := make([]float32, p.length)
		p.perform(halves, &meter{})
		var peak, off float64
		for n, x := range whole {
			peak, off = max(peak, math.Abs(x)), max(off, math.Abs(x-float64(halves[n])))
		}
		if peak == 0 || off > 1e-6*peak {
			t.Errorf("score %d, %s: up to %.2g off of %.2g", i, v.Name, off, peak)
		}
	}
}

// What goes wrong in either half is raised where the sound was asked for.
func TestFaultsOfAHalf(t *testing.T) {
	for broken := range 4 {
		p := newPlaying(Hand{}.Block(sounding(t, "4:G4 3:C4 2:E4 1:C5")), voices[0], 440)
		p.strings[broken].stops[0].pluck = func() []float64 { panic("a string broke") }
		func() {
			defer func() {
				if r := recover(); r != "a string broke" {
					t.Errorf("string %d: %v", broken, r)
				}
			}()
			p.perform(make([]float32, p.length), &meter{})
		}()
	}
}
