package synth

import (
	"testing"
	"time"
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

func TestSoundIsRewound(t *testing.T) {
	s := chordSound(t)
	first := record(s).samples
	if n, ok := s.Stream(make([][2]float64, 8)); n != 0 || ok || s.Position() != s.Len() {
		t.Errorf("after the end: %d samples, %v, at %d of %d", n, ok, s.Position(), s.Len())
	}
	if err := s.Seek(0); err != nil {
		t.Fatal(err)
	}
	if again := record(s).samples; len(again) != len(first) || again[5000] != first[5000] {
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
