package drills

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"sparetone/theory"
)

// symbolInText is what could be a chord symbol or a note in a sentence: a word that begins with a letter from A to G.
var symbolInText = regexp.MustCompile(`(?:^|[\s“"(])[A-G][^\s,.;:?!”"]*`)

// Aloud writes the chord symbols and notes of a sentence in words, so that a screen reader says them: F♯m7 becomes F
// sharp minor seventh, and so does "F♯m7, minor seventh", which would be said twice.
func Aloud(text string) string {
	var out strings.Builder
	for {
		at := symbolInText.FindStringIndex(text)
		if at == nil {
			return out.String() + text
		}
		begin := at[0] + strings.IndexAny(text[at[0]:at[1]], "ABCDEFG")
		said, kind := symbolAloud(text[begin:at[1]])
		out.WriteString(text[:begin] + said)
		text = text[at[1]:]
		if rest, twice := strings.CutPrefix(text, ", "+kind); twice && kind != "" {
			if next, _ := utf8.DecodeRuneInString(rest); !unicode.IsLetter(next) && next != ' ' {
				text = rest
			}
		}
	}
}

// symbolAloud writes a word in words, and which kind of chord was named with it, if it is a chord or a note as we
// write them. What is a letter and a figure speaks well as it is, and may be a pitch: G5, C6.
func symbolAloud(word string) (said, kind string) {
	c, err := theory.ParseChord(word)
	if err != nil || word != c.String() && word != c.Symbol() {
		return word, ""
	}
	said = theory.Spoken(c.Root)
	symbol := c.Kind.Symbols[0]
	switch {
	case strings.Trim(symbol, "0123456789") != "":
		kind = c.Kind.Name
		said += " " + kind
	case symbol != "" && c.Root.Alter != 0:
		said += " " + symbol
	default:
		said += symbol
	}
	if c.Bass != c.Root {
		said += " over " + theory.Spoken(c.Bass)
	}
	return said, kind
}
