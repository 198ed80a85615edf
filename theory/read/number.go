package read

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// numberNames are the words for a number from 1 to 15, the first of them as names are written with.
var numberNames = [][]string{
	{"unison", "one", "first"}, {"second", "two"}, {"third", "three"}, {"fourth", "four"}, {"fifth", "five"}, {"sixth", "six"},
	{"seventh", "seven"}, {"octave", "eighth", "eight", "8ve"}, {"ninth", "nine"}, {"tenth", "ten"}, {"eleventh", "eleven"},
	{"twelfth", "twelve"}, {"thirteenth", "thirteen"}, {"fourteenth", "fourteen"}, {"fifteenth", "fifteen"},
}

// ordinal is a number from 1 to 15 as names are written with: unison, third, ninth.
func ordinal(number int) string { return numberNames[number-1][0] }

// Number reads a number from 1 to 15 in figures or words: 3, 3rd, third, three.
func Number(word string) (int, bool) {
	for i, names := range numberNames {
		if slices.Contains(names, word) {
			return i + 1, true
		}
	}
	figures := strings.TrimRightFunc(word, unicode.IsLetter)
	if ending := word[len(figures):]; ending != "" && !slices.Contains(ordinalEndings, ending) {
		return 0, false
	}
	n, ok := WholeNumber(figures)
	return n, ok && n >= 1 && n <= len(numberNames)
}

// Cardinal reads a number from 1 to 15 in a word of its own: two, and neither second nor 2.
func Cardinal(word string) (int, bool) {
	word = Words(word)
	n, ok := Number(word)
	return n, ok && word != ordinal(n) && !slices.Contains(ordinalWords, word) && strings.Trim(word, "0123456789stndrh") != ""
}

// ordinalWords are the ordinals that no interval is named with.
var ordinalWords = []string{"first", "eighth"}

// ordinalEndings make an ordinal of figures: 1st, 2nd, 3rd, 5th.
var ordinalEndings = []string{"st", "nd", "rd", "th"}

// WholeNumber reads a whole number that is written in figures alone: +4 is an augmented fourth, and no number, and
// 0003 is a shape.
func WholeNumber(text string) (int, bool) {
	n, err := strconv.Atoi(text)
	return n, err == nil && strings.Trim(text, "0123456789") == "" && (text == "0" || text[0] != '0')
}

// romans are the degrees of a key as numerals.
var romans = []string{"i", "ii", "iii", "iv", "v", "vi", "vii"}

// Numeral reads on which degree of a key a chord stands, 1 to 7, by its Roman numeral, of whatever case and with a sign of a
// diminished chord after it or none, or by its number: IV, vii°, iidim, 4, four.
func Numeral(word string) (degree int, ok bool) {
	word = strings.ToLower(word)
	if n, ok := Number(word); ok {
		return n, n <= len(romans)
	}
	bare := strings.TrimRight(strings.TrimSuffix(word, "dim"), "°o")
	at := slices.Index(romans, bare)
	return at + 1, at >= 0
}
