package synth

import (
	"testing"
	"time"

	"sparetone/synth/measure"
	"sparetone/theory"
)

// plucked renders one note and records it.
func plucked(t testing.TB, v Voice, midi int, opt Options) measure.Recording {
	t.Helper()
	s, err := Render(Score{
		Plucks: []Pluck{{String: 1, Pitch: midiPitch(midi), Strength: 0.75}},
		Length: 2 * time.Second,
	}, v, opt)
	if err != nil {
		t.Fatal(err)
	}
	return measure.Record(s, SampleRate)
}

// midiPitch returns a pitch by its MIDI number, spelled with sharps.
func midiPitch(n int) theory.Pitch {
	for _, s := range []string{"C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B"} {
		note, _ := theory.ParseNote(s)
		if p, ok := theory.Spell(n, note); ok {
			return p
		}
	}
	panic("no such pitch")
}
