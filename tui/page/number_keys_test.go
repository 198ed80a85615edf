package page

import "testing"

// The bottom line names the keys of the lines there are, and one key by itself.
func TestNumberKeysAreNamed(t *testing.T) {
	for n, want := range map[int]string{1: "1", 2: "1–2", 9: "1–9", 12: "1–9 a–c", 40: "1–9 a–h"} {
		if got := NumberKeys(n).KeyName; got != want {
			t.Errorf("of %d lines: %q, want %q", n, got, want)
		}
	}
}
