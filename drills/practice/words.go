package practice

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"sparetone/theory"
)

// Count writes a number with its noun.
func Count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// Capital writes a sentence's first letter large.
func Capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return strings.ToUpper(string(r)) + s[n:]
}

// Sentence writes an error as a sentence.
func Sentence(s string) string {
	return Capital(strings.TrimRight(theory.Clean(s), ".")) + "."
}
