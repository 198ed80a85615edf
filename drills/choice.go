package drills

import (
	"slices"
	"strings"

	"sparetone/theory/read"
	"sparetone/theory/say"
)

// Choice is one of the answers offered.
type Choice struct {
	ID    string   // what the drill calls it
	Said  say.Text // as it is shown and said
	Typed string   // as a person would type it
}

// Unknown is the answer of whoever does not know, as it is typed and recorded.
const Unknown = "I don't know"

// unknowns are the words for it. A question mark is none: it asks for help.
var unknowns = []string{"i dont know", "dont know", "i do not know", "no idea", "i have no idea", "not sure", "pass"}

// SaysUnknown reports whether a text says that it is not known.
func SaysUnknown(text string) bool {
	return slices.Contains(unknowns, unquoted.Replace(read.Words(text)))
}

var unquoted = strings.NewReplacer("'", "", "’", "")
