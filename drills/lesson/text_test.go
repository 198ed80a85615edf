package lesson

import "testing"

// A part of a value is found where it stands in it, and nowhere behind it: of a value that is written with escapes the beginning is told.
func TestWithinAValue(t *testing.T) {
	v := value{at: 4, text: "C Am"}
	for text, want := range map[string]int{
		`x = "C Am"` + "\n":                7,
		`x = "C Am`:                        7, // the text ends there
		`x = "C \u0041m" # and Am besides`: 4,
	} {
		if got := v.within([]byte(text), "Am"); got != want {
			t.Errorf("%s: Am is found at %d, want %d", text, got, want)
		}
	}
}
