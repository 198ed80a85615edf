package drills

import (
	"math/rand/v2"
	"testing"

	"sparetone/synth"
)

// BenchmarkQuestion makes a question of each drill. "ask" is the question alone, on a neck that was looked at before;
// "heard" renders its first sound as well, the whole of it; "new neck" is the first question on an instrument.
func BenchmarkQuestion(b *testing.B) {
	for _, d := range All() {
		b.Run(d.About().ID+"/ask", func(b *testing.B) {
			on, rng := ukulele(b), rand.New(rand.NewPCG(1, 1))
			for range 200 {
				if _, err := d.Ask(anyRequest(d, on, rng)); err != nil {
					b.Fatal(err)
				}
			}
			for b.Loop() {
				if _, err := d.Ask(anyRequest(d, on, rng)); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run(d.About().ID+"/new neck", func(b *testing.B) {
			rng := rand.New(rand.NewPCG(1, 1))
			for b.Loop() {
				if _, err := d.Ask(anyRequest(d, ukulele(b), rng)); err != nil {
					b.Fatal(err)
				}
			}
		})
		if !d.About().Ears {
			continue
		}
		b.Run(d.About().ID+"/heard", func(b *testing.B) {
			on, rng := ukulele(b), rand.New(rand.NewPCG(1, 1))
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
