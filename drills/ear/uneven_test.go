package ear

import (
	"math/rand/v2"
	"testing"

	"sparetone/drills"
	"sparetone/drills/trial"
	"sparetone/synth"
)

// Of two notes one after the other each is plucked harder or softer, as far as may be either way; two that sound together are not.
func TestUnevenly(t *testing.T) {
	on := trial.Ukulele(t)
	notes := drills.SoundingsOf(on.Tuning, nil)[:2]
	softest, loudest := 1.0, 0.0
	firstIsLouder := 0
	const times = 400
	r := drills.Request{Rand: rand.New(rand.NewPCG(1, 1))}
	for range times {
		even := synth.Hand{}.Rising(notes)
		usual := even.Plucks[0].Strength
		s := unevenNotes(r, synth.Hand{}.Rising(notes))
		for _, p := range s.Plucks {
			softest, loudest = min(softest, p.Strength/usual), max(loudest, p.Strength/usual)
		}
		if s.Plucks[0].Strength > s.Plucks[1].Strength {
			firstIsLouder++
		}
		together := unevenNotes(r, synth.Hand{}.Block(notes))
		if together.Plucks[0].Strength != together.Plucks[1].Strength {
			t.Fatal("two notes together are not plucked alike")
		}
	}
	if softest < softestNote || softest > softestNote+0.02 || loudest > loudestNote || loudest < loudestNote-0.02 {
		t.Errorf("notes are plucked %.3f to %.3f times as hard as usual", softest, loudest)
	}
	if firstIsLouder < 2*times/5 || firstIsLouder > 3*times/5 {
		t.Errorf("the first is the louder one %d times in %d", firstIsLouder, times)
	}
}
