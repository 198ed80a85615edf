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
