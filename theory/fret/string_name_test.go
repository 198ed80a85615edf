package fret_test

import "testing"

// In a sentence every string is called by a name of its own: by its note, and by low, middle or high where several have
// the same letter.
func TestStringsAreCalledApart(t *testing.T) {
	for name, want := range map[string][]string{
		"ukulele": {"A", "E", "C", "g"},
		"guitar":  {"high E", "B", "G", "D", "A", "low E"},
		"gDGBD":   {"high D", "B", "low G", "low D", "high g"},
		"DADF#AD": {"high D", "high A", "F♯", "middle D", "low A", "low D"},
	} {
		on := tuning(t, name)
		for n, want := range want {
			if got := on.StringCalled(n + 1); got != want {
				t.Errorf("%s: string %d is called %s, want %s", name, n+1, got, want)
			}
		}
	}
}
