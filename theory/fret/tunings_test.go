package fret

import (
	"fmt"
	"strings"
	"testing"
)

// Every string of every tuning begins at the nut, but the short one of a five-string banjo, which begins at the fifth fret.
func TestWhereStringsBegin(t *testing.T) {
	for _, tuning := range Tunings() {
		for i := range tuning.Strings {
			want := 0
			if strings.HasPrefix(tuning.Name, "banjo") && i == 0 {
				want = 5
			}
			if got := tuning.Start(i); got != want {
				t.Errorf("%s: string %d begins at fret %d, want %d", tuning.Name, tuning.StringNumber(i), got, want)
			}
		}
	}
}

// The beginning of a name is asked to be written whole, even where its letters are notes; capitals, octaves and spaces say that strings are meant.
func TestBeginningsOfNamesAreNoStrings(t *testing.T) {
	for typed, want := range map[string]string{
		"ba": "baritone, banjo, banjo-double-c, bass", "Ba": "baritone, banjo, banjo-double-c, bass", "c": "cavaquinho, charango, cello",
		"gui": "guitar, guitar-drop-d, guitar-dadgad, guitar-open-g", "cell": "cello",
	} {
		_, err := ParseTuning(typed)
		if whole := fmt.Sprintf("tuning %q is only the beginning of %s; write the name whole, or strings such as gCEA or G4 C4 E4 A4", typed, want); err == nil || err.Error() != whole {
			t.Errorf("%s: %v, want %s", typed, err, whole)
		}
	}
	for typed, want := range map[string]string{"BA": "B3 A4", "b a": "B4 A4", "ba4": "", "B4 A4": "B4 A4", "C": "C4", "cd": "C4 D4", "bass": "bass", "guitar": "guitar"} {
		got, err := ParseTuning(typed)
		switch {
		case want == "" && err == nil:
			t.Errorf("%s is %s", typed, got.Name)
		case want != "" && (err != nil || got.Name != want):
			t.Errorf("%s: %v %v, want %s", typed, got, err, want)
		}
	}
}
