package read

import (
	"strings"

	"sparetone/theory/say"
)

// Names reports whether somebody typed a text, as it is shown or as it is said; case, hyphens and spacing do not count.
func Names(typed string, text say.Text) bool {
	typed = Words(typed)
	return typed == Words(text.Screen()) || typed == Words(text.Aloud())
}

// Begins reports whether a text begins with what somebody typed, as it is shown or as it is said, whatever the case.
func Begins(typed string, text say.Text) bool {
	typed = strings.ToLower(typed)
	return strings.HasPrefix(strings.ToLower(text.Screen()), typed) || strings.HasPrefix(strings.ToLower(text.Aloud()), typed)
}
