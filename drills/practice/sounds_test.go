package practice

import (
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/synth"
)

// Between two sounds in turn lie 350 ms, in which the first fades for 12 ms and then nothing sounds.
func TestSilenceBetweenSounds(t *testing.T) {
	on := instrument(t, "ukulele")
	one := drills.OpenStrings(on)
	sound, err := Render(on.Voices[0], append(one, one...), 440)
	if err != nil {
		t.Fatal(err)
	}
	length := synth.SampleRate.N(one[0].Score.Length)
	gap := synth.SampleRate.N(350 * time.Millisecond)
	if got, want := sound.Len(), 2*length+gap; got != want {
		t.Fatalf("%d samples, want %d", got, want)
	}
	frames := make([][2]float64, sound.Len())
	sound.Stream(frames)
	for i, x := range frames[length+synth.SampleRate.N(13*time.Millisecond) : length+gap] {
		if x[0] != 0 {
			t.Fatalf("it is not silent before the second sound, %d samples after the first has faded", i)
		}
	}
	if frames[length-1000][0] == 0 || frames[length+gap+1000][0] == 0 {
		t.Error("it is silent where the sounds are")
	}
}
