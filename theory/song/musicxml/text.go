package musicxml

import (
	"encoding/xml"
	"strings"

	"sparetone/theory"
)

// xmlText escapes a text.
func xmlText(s string) string {
	var b strings.Builder
	if err := xml.EscapeText(&b, []byte(theory.Clean(s))); err != nil {
		return ""
	}
	return b.String()
}
