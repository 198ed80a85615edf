package progress

import (
	"strings"
	"unicode/utf8"
)

// LongestText is how many bytes one text of an answer may have; ids are held to it too.
const LongestText = 1000

// Control reports whether a rune could move a cursor or ring a bell: C0, DEL and C1 of ISO/IEC 6429.
func Control(r rune) bool { return r < ' ' || r >= 0x7f && r <= 0x9f || r == '\ufffd' }

// Short cuts a text to what fits in an error of one line.
func Short(s string) string {
	s = Tidy(s)
	if r := []rune(s); len(r) > 80 {
		return string(r[:79]) + "…"
	}
	return s
}

// Tidy takes control characters out of a text and cuts it to what is kept.
func Tidy(s string) string {
	s = strings.Map(func(r rune) rune {
		if Control(r) {
			return -1
		}
		return r
	}, s)
	if len(s) <= LongestText {
		return s
	}
	s = s[:LongestText]
	for !utf8.ValidString(s) {
		s = s[:len(s)-1]
	}
	return s
}
