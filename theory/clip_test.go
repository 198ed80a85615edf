package theory_test

import (
	"strings"
	"testing"

	"sparetone/theory"
)

// An error repeats no more than 32 characters of what was typed, whatever they are.
func TestClip(t *testing.T) {
	for typed, want := range map[string]string{
		"Cadd9":                 "Cadd9",
		strings.Repeat("♭", 32): strings.Repeat("♭", 32),
		strings.Repeat("♭", 33): strings.Repeat("♭", 31) + "…",
	} {
		if got := theory.Clip(typed); got != want {
			t.Errorf("%q is clipped to %q, want %q", typed, got, want)
		}
	}
}
