package synth_test

import (
	"bytes"
	"errors"
	"math"
	"testing"
	"time"

	"github.com/gopxl/beep/v2/wav"

	"sparetone/synth"
	"sparetone/theory"
)

// A sound in one channel is what it is in both, to the 16 bits.
func TestMonoWAVIsTheSound(t *testing.T) {
	score := synth.Score{Plucks: []synth.Pluck{{String: 1, Pitch: theory.Pitch{Note: theory.Note{Letter: theory.A}, Octave: 4}, Strength: 0.5}}, Length: 700 * time.Millisecond}
	sound, err := synth.Render(score, synth.Voices()[0], synth.Options{})
	if err != nil {
		t.Fatal(err)
	}
	data, err := synth.MonoWAV(sound)
	if err != nil {
		t.Fatal(err)
	}
	if len(data) != 44+2*sound.Len() {
		t.Errorf("%d bytes for %d samples", len(data), sound.Len())
	}
	read, format, err := wav.Decode(bytes.NewReader(data))
	if err != nil || format.NumChannels != 1 || format.SampleRate != synth.SampleRate || read.Len() != sound.Len() {
		t.Fatalf("%+v, %d samples, %v", format, read.Len(), err)
	}
	if err := sound.Seek(0); err != nil {
		t.Fatal(err)
	}
	is, was := make([][2]float64, sound.Len()), make([][2]float64, sound.Len())
	read.Stream(is)
	sound.Stream(was)
	for i := range is {
		if math.Abs(is[i][0]-was[i][0]) > 1.0/(1<<15) || is[i][1] != is[i][0] {
			t.Fatalf("sample %d is %v and was %v", i, is[i], was[i])
		}
	}
}

// A sequence ends with the first sound that cannot be made, and says why.
func TestSequenceEndsWithAnError(t *testing.T) {
	broken, asked := errors.New("no strings"), 0
	s := synth.Sequence([]synth.Part{
		{Rest: 10 * time.Millisecond},
		{Sound: func() (*synth.Sound, error) { return nil, broken }},
		{Sound: func() (*synth.Sound, error) { asked++; return nil, nil }},
	})
	if data, err := synth.MonoWAV(s); !errors.Is(err, broken) || asked > 0 {
		t.Errorf("%d bytes, %v; the sound after it was asked for %d times", len(data), err, asked)
	}
}
