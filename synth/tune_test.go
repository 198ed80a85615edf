package synth

import (
	"maps"
	"math"
	"slices"
	"testing"

	"sparetone/synth/measure"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// everyPitch returns the MIDI numbers of every string and fret, 0 to 19, of every built-in tuning.
func everyPitch() []int {
	seen := map[int]bool{}
	for _, t := range fret.Tunings() {
		for _, open := range t.Strings {
			for f := range 20 {
				seen[open.MIDI()+f] = true
			}
		}
	}
	return slices.Sorted(maps.Keys(seen))
}

// Every string and fret of every tuning, on every voice, is in tune beyond hearing. Source of the
// frequencies: ISO 16 (A4 = 440 Hz), MIDI 1.0 (note 69 = A4), twelve-tone equal temperament.
func TestEveryPitchIsInTune(t *testing.T) {
	const within = 0.1 // cents
	for _, v := range Voices() {
		var worst float64
		for _, n := range everyPitch() {
			want := 440 * math.Exp2(float64(n-69)/12)
			got := plucked(t, v, n, Options{}).Frequency(want, 0.15, 0.75)
			if off := math.Abs(measure.Cents(got, want)); !(off <= within) {
				t.Errorf("%s %v: %.3f Hz is %.3f cents from %.3f Hz", v.Name(), midiPitch(n), got, measure.Cents(got, want), want)
			} else {
				worst = max(worst, off)
			}
		}
		t.Logf("%s: within %.4f cents over %d pitches", v.Name(), worst, len(everyPitch()))
	}
}

func TestA4MovesEveryPitch(t *testing.T) {
	for _, a4 := range []float64{415, 432, 442, 466} {
		for _, n := range []int{48, 69, 84} {
			want := theory.MIDIFrequency(n, a4)
			if off := measure.Cents(plucked(t, voices[0], n, Options{A4: a4}).Frequency(want, 0.15, 0.75), want); math.Abs(off) > 0.1 {
				t.Errorf("A4 at %v Hz: %v is %.3f cents off", a4, midiPitch(n), off)
			}
		}
	}
}
