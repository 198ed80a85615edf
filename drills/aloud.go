package drills

import (
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"sparetone/theory"
	"sparetone/theory/read"
)

// Aloud writes a sentence as it is said, so that a screen reader says it well: chord symbols and notes, numerals, and
// the frets of a shape one by one.
func Aloud(text string) string {
	return spokenWord.ReplaceAllStringFunc(chordsAloud(text), func(w string) string {
		if numeral := romanNumeral.FindStringSubmatch(w); numeral != nil && !strings.Contains(text, "I don't") {
			return numeralAloud(numeral)
		}
		if manyFrets.MatchString(w) {
			return strings.Join(strings.Split(w, ""), " ")
		}
		return w
	})
}

// spokenWord is a word of a sentence, with whatever a hyphen or a slash joins to it: names of files stay as they are.
var spokenWord = regexp.MustCompile(`[^\s,.;:?!“”"]+`)

// manyFrets is a shape with a figure a string: 0003 would be said as three.
var manyFrets = regexp.MustCompile(`^[0-9x]{4,}$`)

// romanNumeral is a chord of a key: its degree, and how it differs from a triad.
var romanNumeral = regexp.MustCompile(`^([♭♯]?)(VI{0,2}|I{1,3}|IV|vi{0,2}|i{1,3}|iv)(°?)([0-9]*)$`)

// romans are the degrees of a key in order.
var romans = []string{"I", "II", "III", "IV", "V", "VI", "VII"}

// numeralAloud writes a numeral that was taken apart in words: vi is six minor, vii° seven diminished.
func numeralAloud(parts []string) string {
	degree := slices.Index(romans, strings.ToUpper(parts[2]))
	out := strings.TrimSpace(parts[1] + " " + read.Cardinal(degree+1))
	switch {
	case parts[3] != "":
		out += " diminished"
	case parts[2] == strings.ToLower(parts[2]):
		out += " minor"
	}
	return strings.TrimSpace(out + " " + parts[4])
}

// symbolInText is what could be a chord symbol or a note in a sentence: a word that begins with a letter from A to G.
var symbolInText = regexp.MustCompile(`(?:^|[\s“"(])[A-G][^\s,.;:?!”"]*`)

// chordsAloud writes the chord symbols and notes of a sentence in words: F♯m7 becomes F sharp minor seventh, and so
// does "F♯m7, minor seventh", which would be said twice.
func chordsAloud(text string) string {
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
	c, err := read.Chord(word)
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
