package synth

import (
	"strings"
	"testing"
	"time"

	"sparetone/theory"
)

// sounding reads "4:G4 3:C4": string numbers and pitches in tuning order.
func sounding(t testing.TB, s string) (notes []Sounding) {
	t.Helper()
	for _, f := range strings.Fields(s) {
		p, err := theory.ParsePitch(f[2:])
		if err != nil {
			t.Fatal(err)
		}
		notes = append(notes, Sounding{int(f[0] - '0'), p})
	}
	return notes
}

func TestWhatCannotBePlayed(t *testing.T) {
	c := theory.Pitch{Note: theory.Note{Letter: theory.C}, Octave: 4}
	low := theory.Pitch{Note: theory.Note{Letter: theory.C}, Octave: 0}
	for name, bad := range map[string]Score{
		"longer than nothing": {Plucks: []Pluck{{String: 1, Pitch: c, Strength: 1}}},
		"empty":               {Length: time.Second},
		"longest":             {Plucks: []Pluck{{String: 1, Pitch: c, Strength: 1}}, Length: time.Hour},
		"16.35 Hz":            {Plucks: []Pluck{{String: 1, Pitch: low, Strength: 1}}, Length: time.Second},
		"plucked at":          {Plucks: []Pluck{{String: 1, Pitch: c, Strength: 1, At: time.Second}}, Length: time.Second},
		"strength":            {Plucks: []Pluck{{String: 1, Pitch: c}}, Length: time.Second},
		"stopped":             {Plucks: []Pluck{{String: 1, Pitch: c, Strength: 1, Damp: -1}}, Length: time.Second},
	} {
		_, err := Render(bad, Voices()[0], Options{})
		if err == nil || !strings.Contains(err.Error(), name) || strings.Contains(err.Error(), "\n") {
			t.Errorf("want one line that says %q, got %v", name, err)
		}
	}
	good := Hand{}.Block([]Sounding{{1, c}})
	for want, opt := range map[string]Options{"A4 at 500": {A4: 500}, "0 dB or below": {Gain: 1}} {
		if _, err := Render(good, Voices()[0], opt); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("want %q, got %v", want, err)
		}
	}
	if _, err := Render(good, nil, Options{}); err == nil {
		t.Error("no voice: want an error")
	}
}

func TestThenPlaysOneAfterAnother(t *testing.T) {
	notes := sounding(t, "4:G4 1:A4")
	a, b := Hand{}.Block(notes), Hand{Ring: time.Second}.Block(notes)
	both := Then(500*time.Millisecond, a, b)
	if want := a.Length + 500*time.Millisecond + b.Length; both.Length != want {
		t.Errorf("length %v, want %v", both.Length, want)
	}
	if first, second := both.Plucks[0], both.Plucks[2]; first.Damp != a.Length || second.At != a.Length+500*time.Millisecond {
		t.Errorf("the first is stopped after %v and the second begins at %v", first.Damp, second.At)
	}
}
