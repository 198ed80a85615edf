package practice

import (
	"strings"
	"testing"
)

func TestNamesOfFiles(t *testing.T) {
	for name, want := range map[string]string{
		"Zoë B.":                 "zoë-b",
		"../etc":                 "etc",
		"Ann O'Hara":             "ann-ohara",
		"Nora’s":                 "noras",
		"///":                    "practice",
		"":                       "practice",
		"李 娜":                    "李-娜",
		"G, Em, C, D":            "g-em-c-d",
		"Rain -- again (slow)":   "rain-again-slow",
		"नमस्ते":                 "नमस्ते",
		strings.Repeat("a", 60):  strings.Repeat("a", 60),
		strings.Repeat("a ", 31): strings.Repeat("a-", 29) + "a",
		strings.Repeat("ö", 31):  strings.Repeat("ö", 30),
	} {
		if got := fileName(name, "practice"); got != want {
			t.Errorf("%q makes the file %q, want %q", name, got, want)
		}
	}
}
