package theory

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Moves reports whether a rune could do something to a terminal, or to the order of a line, instead of standing in it:
// the controls C0, DEL and C1 of ISO/IEC 6429, Unicode's bidirectional controls (property Bidi_Control) and its
// separators of lines and paragraphs. Joiners, which some scripts are written with, move nothing.
func Moves(r rune) bool {
	return unicode.In(r, unicode.Cc, unicode.Zl, unicode.Zp, unicode.Bidi_Control)
}

// Clean returns a text that came from a file or a person in one line that can be shown: without what Moves and what is
// not UTF-8. Ends of lines and tabs become spaces.
func Clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t' || unicode.In(r, unicode.Zl, unicode.Zp):
			return ' '
		case Moves(r) || r == utf8.RuneError:
			return -1
		}
		return r
	}, s)
}
