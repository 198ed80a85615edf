package say

import (
	"strings"
	"unicode"
)

// Mentions reports whether a text, as it is said aloud, has some words in it: whole words, whatever their case.
func (t Text) Mentions(words string) bool {
	return strings.Contains(spaced(t.Aloud()), spaced(words))
}

// spaced writes the words of a text in lower case with one space around each.
func spaced(s string) string {
	apart := func(r rune) bool { return !unicode.IsLetter(r) && r != '-' }
	return " " + strings.Join(strings.FieldsFunc(strings.ToLower(s), apart), " ") + " "
}
