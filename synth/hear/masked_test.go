package hear_test

import (
	"slices"
	"testing"

	"sparetone/synth"
	"sparetone/synth/hear"
)

// A string an octave above another that is struck with it is told from one that is silent, on strings of ours, which are in tune to the cent; so
// is the lower one.
func TestAMaskedStringIsHeard(t *testing.T) {
	tuning := tuningCalled(t, "guitar")
	for _, c := range []struct{ voice, expected, played string }{
		{"steel", "x32010", "x32010"},
		{"steel", "x32010", "x3201x"}, // E4 over E3
		{"guitar", "x32010", "x32010"},
		{"guitar", "x02210", "x0x210"}, // E3 under E4
	} {
		expect, truth := pitchesOf(tuning, shapeOf(t, c.expected)), pitchesOf(tuning, shapeOf(t, c.played))
		sound := ownSound(t, c.voice, scoreOf(tuning, shapeOf(t, c.played), synth.Strum), 0)
		heard, err := hear.Hear(sound, float64(synth.SampleRate), trial{tuning: tuning, expect: expect}.task(nil, true))
		if err != nil || len(heard) != 1 {
			t.Fatalf("%s on %s: %v, %v", c.played, c.voice, heard, err)
		}
		var got []int
		for _, s := range heard[0].Strings {
			got = append(got, s.Pitch)
		}
		if !slices.Equal(got, truth) {
			t.Errorf("%s on %s for %s is heard as %v, not %v", c.played, c.voice, c.expected, got, truth)
		}
		if second := heard[0].Strings[4]; c.played == "x32010" && second.Sure < 0.72 { // 0.67 by levels over half a second alone
			t.Errorf("of C4 over C3 on %s it is sure by %.2f", c.voice, second.Sure)
		}
	}
}
