package progress

import (
	"strings"
	"unicode/utf8"
)

// longest is how many bytes one text of an answer may have; ids are held to it too.
const longest = 1000

// control reports whether a rune could move a cursor or ring a bell: C0, DEL and C1 of ISO/IEC 6429.
func control(r rune) bool { return r < ' ' || r >= 0x7f && r <= 0x9f || r == '\ufffd' }

// short cuts a text to what fits in an error of one line.
func short(s string) string {
	s = tidy(s)
	if r := []rune(s); len(r) > 80 {
		return string(r[:79]) + "…"
	}
	return s
}

// tidy takes control characters out of a text and cuts it to what is kept.
func tidy(s string) string {
	s = strings.Map(func(r rune) rune {
		if control(r) {
			return -1
		}
		return r
	}, s)
	if len(s) <= longest {
		return s
	}
	s = s[:longest]
	for !utf8.ValidString(s) {
		s = s[:len(s)-1]
	}
	return s
}
