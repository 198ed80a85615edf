package theory

import (
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

func TestClean(t *testing.T) {
	for text, want := range map[string]string{
		"C♯m7(♭5) für Zoë":          "C♯m7(♭5) für Zoë",
		"\x1b[2Jred\x1b]0;title\a":  "[2Jred]0;title",
		"a\u009b31mb\u0085c\x7fd":   "a31mbcd",
		"one\ntwo\tthree\u2028four": "one two three four",
		"evil\u202egpj.exe\u2066x":  "evilgpj.exex",
		"\u200eleft\u200f\u061c":    "left",
		"\xffC\xc0\x80":             "C",
		"می\u200cخواهم 👩\u200d🎤":    "می\u200cخواهم 👩\u200d🎤", // joiners belong to writing
	} {
		if got := Clean(text); got != want {
			t.Errorf("Clean(%q) = %q, want %q", text, got, want)
		}
	}
}

// Whatever comes, what is left is UTF-8 and moves nothing, and cleaning it again changes nothing.
func TestCleanLeavesNothingThatMoves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Clean(string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes")) + rapid.String().Draw(t, "text"))
		if !utf8.ValidString(s) || strings.ContainsFunc(s, Moves) || Clean(s) != s {
			t.Fatalf("%q", s)
		}
	})
}
