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

// Cardinal is a number from 1 to 15 in words: one, two, three.
func Cardinal(number int) string {
	if number == 8 {
		return "eight"
	}
	return numberNames[number-1][1]
}

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

// ordinalEndings make an ordinal of figures: 1st, 2nd, 3rd, 5th.
var ordinalEndings = []string{"st", "nd", "rd", "th"}

// WholeNumber reads a whole number that is written in figures alone: +4 is an augmented fourth, and no number, and
// 0003 is a shape.
func WholeNumber(text string) (int, bool) {
	n, err := strconv.Atoi(text)
	return n, err == nil && strings.Trim(text, "0123456789") == "" && (text == "0" || text[0] != '0')
}
