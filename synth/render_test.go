package synth

import (
	"math"
	"testing"
	"time"

	"sparetone/synth/measure"
)

// What the strings show must not tell a high note from a low one.
func TestLevelsDoNotTellPitch(t *testing.T) {
	s, err := Render(Hand{}.Block(sounding(t, "4:C4 3:A5")), voices[0], Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, at := range []time.Duration{0, 100 * time.Millisecond, time.Second, 2 * time.Second} {
		if l := s.Levels(at); len(l) != 2 || l[4] != l[3] {
			t.Errorf("at %v: %v", at, l)
		}
	}
	if l := s.Levels(s.Duration()); len(l) != 0 {
		t.Errorf("at the end: %v", l)
	}
}

// How strings come to rest for the eye is the lowest partial on average, with the quick part of its decay.
func TestLevelsFollowTheLowestPartial(t *testing.T) {
	steel, err := VoiceByName("steel")
	if err != nil {
		t.Fatal(err)
	}
	s, err := Render(Hand{}.Block(sounding(t, "4:C4 3:A5")), steel, Options{})
	if err != nil {
		t.Fatal(err)
	}
	one, other := steel.Partials(midiPitch(60).Frequency(440), 0.75)[0], steel.Partials(midiPitch(81).Frequency(440), 0.75)[0]
	if one.Early == 0 || one.Decay == other.Decay {
		t.Fatalf("nothing is to be seen by %+v and %+v", one, other)
	}
	for _, at := range []time.Duration{100 * time.Millisecond, time.Second} {
		want := 0.75 * one.left(at.Seconds()) * math.Exp(-(one.Decay+other.Decay)/2*at.Seconds())
		if got := s.Levels(at)[4]; math.Abs(got/want-1) > 1e-6 {
			t.Errorf("at %v: %v, want %v", at, got, want)
		}
	}
}

func TestSoundIsRewound(t *testing.T) {
	s := chordSound(t)
	first := measure.Record(s, SampleRate).Samples
	if n, ok := s.Stream(make([][2]float64, 8)); n != 0 || ok || s.Position() != s.Len() {
		t.Errorf("after the end: %d samples, %v, at %d of %d", n, ok, s.Position(), s.Len())
	}
	if err := s.Seek(0); err != nil {
		t.Fatal(err)
	}
	if again := measure.Record(s, SampleRate).Samples; len(again) != len(first) || again[5000] != first[5000] {
		t.Error("played again it is another sound")
	}
	if s.Seek(-1) == nil || s.Seek(s.Len()+1) == nil {
		t.Error("a seek beyond the sound: want an error")
	}
}

func TestVoicesAreFoundByName(t *testing.T) {
	for _, v := range Voices() {
		if got, err := VoiceByName(v.Name()); got != v || err != nil {
			t.Errorf("%s: %v, %v", v.Name(), got, err)
		}
	}
	if _, err := VoiceByName("kazoo"); err == nil {
		t.Error("kazoo: want an error")
	}
}
