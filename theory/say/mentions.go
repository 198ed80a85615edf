package say

import (
	"strings"
	"unicode"
)

// Mentions reports whether a text, as it is said aloud, has some words in it: whole words, whatever their case.
func (t Text) Mentions(words string) bool {
	return strings.Contains(t.Spaced(), Spaced(words))
}

// Spaced writes the words of a text, as it is said aloud, as Spaced does.
func (t Text) Spaced() string { return Spaced(t.Aloud()) }

// Spaced writes the words of a line in lower case with one space around each, so that whole words are found in it.
func Spaced(s string) string {
	apart := func(r rune) bool { return !unicode.IsLetter(r) && r != '-' }
	return " " + strings.Join(strings.FieldsFunc(strings.ToLower(s), apart), " ") + " "
}
