package read

import (
	"strings"

	"sparetone/theory"
)

// nearest returns the suffix that is read and comes nearest to one that is not: a symbol of the table from which it
// differs by one slip among its letters, the same with its bracket closed, or as much of its beginning as can be read. Figures and signs are no slips:
// they would make another chord.
func nearest(text string) string {
	for _, k := range theory.Kinds() {
		for _, symbol := range k.Symbols {
			if slipped(text, symbol) {
				return symbol
			}
		}
	}
	if s, wrong := readSuffix(text + ")"); wrong == nil {
		return s.kind.Symbols[0]
	}
	for end := len(text) - 1; end > 0; end-- {
		if s, wrong := readSuffix(text[:end]); wrong == nil {
			return s.kind.Symbols[0]
		}
	}
	return ""
}

// slipped reports whether a text differs from a symbol by one letter that is left out, too many, wrong, or swapped
// with the next.
func slipped(text, symbol string) bool {
	a, b := text, symbol
	for a != "" && b != "" && a[0] == b[0] {
		a, b = a[1:], b[1:]
	}
	for a != "" && b != "" && a[len(a)-1] == b[len(b)-1] {
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	swapped := len(a) == 2 && len(b) == 2 && a[0] == b[1] && a[1] == b[0]
	return len(symbol) > 2 && (swapped || len(a) <= 1 && len(b) <= 1) && isLetters(a) && isLetters(b)
}

// isLetters reports whether a text is of small letters only, and no flat.
func isLetters(s string) bool {
	return strings.Trim(s, "acdefghijklmnopqrstuvwxyz") == ""
}
