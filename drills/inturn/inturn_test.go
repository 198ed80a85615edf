package inturn

import (
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/trial"
	"sparetone/synth"
	"sparetone/theory/say"
)

// Between two sounds in turn lie 350 ms, in which the first fades for 12 ms and then nothing sounds.
func TestSilenceBetweenSounds(t *testing.T) {
	on := trial.Ukulele(t)
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

// Slower, all comes at twice the time and is stopped after twice as long; the last pluck rings as long as it did.
func TestSlowerIsHalfTheSpeed(t *testing.T) {
	given := []drills.Sound{{Score: synth.Score{Length: 5 * time.Second, Plucks: []synth.Pluck{
		{String: 2, At: 2 * time.Second, Strength: 0.5}, {String: 1, At: 0, Damp: time.Second, Strength: 0.5},
	}}}}
	got := Slower(given)[0].Score
	if got.Length != 7*time.Second || got.Plucks[0].At != 4*time.Second || got.Plucks[1].At != 0 || got.Plucks[1].Damp != 2*time.Second || got.Plucks[0].Damp != 0 {
		t.Errorf("%+v", got)
	}
	if given[0].Score.Length != 5*time.Second || given[0].Score.Plucks[0].At != 2*time.Second || given[0].Score.Plucks[1].Damp != time.Second {
		t.Errorf("what was given is changed: %+v", given[0].Score)
	}
}

// What will be heard is named in its order, one name for the same sound twice.
func TestWhatIsHeardIsNamed(t *testing.T) {
	one, other := say.Of("octave"), say.Of("major seventh")
	for _, c := range []struct {
		text say.Text
		want string
	}{
		{sayHeard([]say.Text{one}), "You hear: octave."},
		{sayHeard([]say.Text{one, one}), "You hear 2 times: octave."},
		{sayHeard([]say.Text{one, other}), "You hear, in turn: octave; major seventh."},
		{sayHeard([]say.Text{other, one, other}), "You hear, in turn: major seventh; octave; major seventh."},
		{sayTwoHeard(one, other), "You hear, in turn: octave; your answer: major seventh."},
	} {
		if c.text.Aloud() != c.want {
			t.Errorf("%q, want %q", c.text.Aloud(), c.want)
		}
	}
}
