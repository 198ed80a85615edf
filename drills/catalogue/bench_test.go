package catalogue

import (
	"math/rand/v2"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/trial"
	"sparetone/synth"
	"sparetone/theory"
)

// BenchmarkQuestion makes a question of each drill. "ask" is the question alone, on a neck that was looked at before;
// "heard" renders its first sound as well, the whole of it.
func BenchmarkQuestion(b *testing.B) {
	for _, name := range []string{"ukulele", "guitar"} {
		for _, d := range All() {
			b.Run(name+"/"+d.About().ID+"/ask", func(b *testing.B) {
				on, rng := trial.Instrument(b, name), rand.New(rand.NewPCG(1, 1))
				for range 200 {
					if _, err := d.Ask(anyRequest(d, on, rng)); err != nil {
						b.Fatal(err)
					}
				}
				b.ReportAllocs()
				for b.Loop() {
					if _, err := d.Ask(anyRequest(d, on, rng)); err != nil {
						b.Fatal(err)
					}
				}
			})
			if !d.About().Ears {
				continue
			}
			b.Run(name+"/"+d.About().ID+"/heard", func(b *testing.B) {
				on, rng := trial.Instrument(b, name), rand.New(rand.NewPCG(1, 1))
				for b.Loop() {
					q, err := d.Ask(anyRequest(d, on, rng))
					if err != nil {
						b.Fatal(err)
					}
					if _, err := synth.Render(q.Sounds[0].Score, q.Voice, synth.Options{}); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}

// BenchmarkFirstQuestion makes the first question on a neck that was never looked at, of each drill; "heard" with its
// first sound, the whole of it. Beside the mean stands the slowest of 60 such questions, of each the quickest of five
// times, so that what else the machine does counts less.
func BenchmarkFirstQuestion(b *testing.B) {
	for _, name := range []string{"ukulele", "guitar"} {
		for _, d := range All() {
			for _, heard := range []bool{false, true} {
				if heard && !d.About().Ears {
					continue
				}
				b.Run(name+"/"+d.About().ID+map[bool]string{false: "/ask", true: "/heard"}[heard], func(b *testing.B) {
					first := func(seed uint64) time.Duration {
						on := trial.Instrument(b, name)
						r := anyRequest(d, on, rand.New(rand.NewPCG(seed, 1)))
						start := time.Now()
						q, err := d.Ask(r)
						if err == nil && heard {
							_, err = synth.Render(q.Sounds[0].Score, q.Voice, synth.Options{})
						}
						if err != nil {
							b.Fatal(err)
						}
						return time.Since(start)
					}
					slowest := time.Duration(0)
					for seed := range uint64(60) {
						slowest = max(slowest, min(first(seed), first(seed), first(seed), first(seed), first(seed)))
					}
					b.ReportAllocs()
					seed := uint64(0)
					for b.Loop() {
						first(seed)
						seed++
					}
					b.ReportMetric(float64(slowest.Microseconds())/1000, "ms-slowest")
				})
			}
		}
	}
}

// BenchmarkNeck looks for the shapes of all kinds of chord on all roots.
func BenchmarkNeck(b *testing.B) {
	for _, name := range []string{"ukulele", "guitar"} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				on := trial.Instrument(b, name)
				for _, k := range drills.KindTargets(on) {
					for _, root := range chord.Roots {
						on.Shapes(theory.NewChord(root, chord.Kind(k.ID)))
					}
				}
			}
		})
	}
}
