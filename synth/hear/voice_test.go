package hear_test

import (
	"math/rand/v2"
	"testing"
	"time"

	"sparetone/synth"
	"sparetone/synth/hear"
)

// A voice that speaks is no stroke over a guitar's strings, though it sounds two of the pitches that are listened for; a few seconds each, in which
// it was one before strings had to ring on. Strokes are heard over the same strings, also where the next follows a quarter of a second later.
func TestAVoiceIsNoStroke(t *testing.T) {
	tuning := tuningCalled(t, "guitar")
	task := trial{tuning: tuning, expect: []int{hear.Silent, 48, 52, 55, 60, 64}}.task(nil, true)
	for _, seed := range []uint64{13, 50} {
		heard, err := hear.Hear(spoken(rand.New(rand.NewPCG(seed, 9)), 16000, 6), 16000, task)
		if err != nil {
			t.Fatal(err)
		}
		for _, h := range heard {
			t.Errorf("of a voice: %+v", h)
		}
	}
	one := scoreOf(tuning, shapeOf(t, "x32010"), synth.Strum)
	twice := one
	for _, p := range one.Plucks {
		p.At += 250 * time.Millisecond
		twice.Plucks = append(twice.Plucks, p)
	}
	for name, score := range map[string]synth.Score{"a stroke": one, "two soon after each other": twice} {
		heard, err := hear.Hear(ownSound(t, "steel", score, 0), float64(synth.SampleRate), task)
		if err != nil || len(heard) == 0 {
			t.Errorf("%s: %d heard, %v", name, len(heard), err)
		}
	}
}
