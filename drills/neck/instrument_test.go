package neck

import (
	"strings"
	"testing"
)

func TestNewInstrument(t *testing.T) {
	for _, row := range []struct {
		tuning string
		capo   int
		voice  string
		name   string
		first  string // string of the tuning, as it sounds
		voices int
		wrong  string
	}{
		{"ukulele", 0, "", "ukulele", "G4", 6, ""},
		{"ukulele", 2, "", "ukulele", "A4", 6, ""},
		{"guitar", 3, "steel", "guitar", "G2", 1, ""},
		{"kazoo", 0, "", "", "", 0, "kazoo"},
		{"ukulele", 99, "", "", "", 0, "capo"},
	} {
		on, err := NewInstrument(row.tuning, row.capo, row.voice)
		if row.wrong != "" {
			if err == nil || !strings.Contains(err.Error(), row.wrong) {
				t.Errorf("%s with a capo at %d: %v", row.tuning, row.capo, err)
			}
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		if got := on.Tuning.Pitch(0, 0).String(); on.Name() != row.name || got != row.first || len(on.Voices) != row.voices {
			t.Errorf("%s with a capo at %d is %s, from %s, with %d voices", row.tuning, row.capo, on.Name(), got, len(on.Voices))
		}
	}
}

// What sounds on an instrument is like it, with a capo too; the pairs of a mandolin's kin as well.
func TestOwnVoice(t *testing.T) {
	for tuning, want := range map[string]string{
		"ukulele": "ukulele", "baritone": "tenor", "guitar": "steel", "mandolin": "mandolin", "mandola": "mandolin", "mandocello": "mandolin",
		"tenor-banjo": "steel", "charango": "ukulele", "EADGBE": "steel", "E2 A2 D3 F#3 B3 E4": "steel", "G3 D4 A4": "ukulele",
	} {
		for _, capo := range []int{0, 2} {
			on, err := NewInstrument(tuning, capo, "")
			if err != nil {
				t.Fatal(err)
			}
			capoed, err := on.Tuning.Capo(0)
			if err == nil && capo == 0 {
				capoed, err = on.Tuning.Capo(3)
			}
			if err != nil {
				t.Fatal(err)
			}
			if got := OwnVoice(capoed).Name(); on.Voices[0].Name() != want || got != want || len(on.Voices) != 6 {
				t.Errorf("%s with a capo at %d sounds like %s, and by itself like %s; want %s", tuning, capo, on.Voices[0].Name(), got, want)
			}
		}
	}
}
