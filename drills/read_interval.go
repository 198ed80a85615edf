package drills

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"sparetone/theory"
)

// numberNames are the words for a number from 1 to 15, the first of them as names are written with.
var numberNames = []string{
	"unison one first", "second two", "third three", "fourth four", "fifth five", "sixth six", "seventh seven",
	"octave eighth eight 8ve", "ninth nine", "tenth ten", "eleventh eleven", "twelfth twelve", "thirteenth thirteen",
	"fourteenth fourteen", "fifteenth fifteen",
}

// readNumber understands a number from 1 to 15 in figures or words: 3, 3rd, third, three.
func readNumber(word string) (int, bool) {
	for i, names := range numberNames {
		if slices.Contains(strings.Fields(names), word) {
			return i + 1, true
		}
	}
	figures := strings.TrimRightFunc(word, unicode.IsLetter)
	if ending := word[len(figures):]; !slices.Contains([]string{"", "st", "nd", "rd", "th"}, ending) {
		return 0, false
	}
	n, ok := wholeNumber(figures)
	return n, ok && n >= 1 && n <= len(numberNames)
}

// wholeNumber reads a whole number that is written in figures alone: +4 is an augmented fourth, and no number.
func wholeNumber(text string) (int, bool) {
	n, err := strconv.Atoi(text)
	return n, err == nil && strings.Trim(text, "0123456789") == "" && (text == "0" || text[0] != '0') // 0003 is a shape
}

// size is what stands before the number of an interval: its quality, or how far it is altered.
type size struct {
	quality string // as theory.ParseInterval reads it; empty if the interval is altered
	altered int
}

// sizes are the words and signs for the size of an interval, in lower case: M and m differ.
var sizes = []struct {
	written []string
	size    size
}{
	{[]string{"major", "maj", "ma"}, size{quality: "M"}},
	{[]string{"minor", "min", "mi"}, size{quality: "m"}},
	{[]string{"perfect", "perf", "per", "p"}, size{quality: "P"}},
	{[]string{"augmented", "aug", "+"}, size{quality: "A"}},
	{[]string{"diminished", "dim", "°", "o"}, size{quality: "d"}},
	{[]string{"flat", "b"}, size{altered: -1}},
	{[]string{"sharp", "#"}, size{altered: 1}},
	{[]string{"double flat", "bb"}, size{altered: -2}},
	{[]string{"double sharp", "##"}, size{altered: 2}},
	{[]string{"natural", "♮"}, size{}},
}

// readSize understands the size of an interval; none is the plain one.
func readSize(text string) (size, bool) {
	if slices.Contains([]string{"M", "m", "P", "A", "d", "AA", "dd"}, text) {
		return size{quality: text}, true
	}
	low := strings.ToLower(text)
	for _, row := range sizes {
		if slices.Contains(row.written, low) {
			return row.size, true
		}
	}
	return size{}, text == ""
}

// plainInterval writes an interval with plain signs, and spaces for what stands between its words.
var plainInterval = strings.NewReplacer("♭", "b", "♯", "#", "𝄫", "bb", "𝄪", "##", "º", "°", ".", " ", "-", " ", "‐", " ", "–", " ")

// readDistance understands the name of an interval or of a tone: b3, m3, min 3rd, flat third, minor third.
func readDistance(text string) (number int, s size, ok bool) {
	if strings.HasPrefix(text, "-") { // a minor or a flattened one, as it may be
		return 0, size{}, false
	}
	text = plainInterval.Replace(text)
	if i := strings.IndexFunc(text, unicode.IsDigit); i > 0 {
		text = text[:i] + " " + text[i:]
	}
	words := strings.Fields(text)
	// A third is any of the thirds, A 3 an augmented one.
	if len(words) > 1 && slices.Contains(articles, strings.ToLower(words[0])) && (len(words[0]) > 1 || !unicode.IsDigit(rune(words[1][0]))) {
		words = words[1:]
	}
	if len(words) == 0 {
		return 0, size{}, false
	}
	last := len(words) - 1
	number, known := readNumber(strings.ToLower(words[last]))
	s, sized := readSize(strings.Join(words[:last], " "))
	return number, s, known && sized
}

// of returns the interval of a number and this size; not every number has every quality.
func (s size) of(number int) (theory.Interval, bool) {
	if s.quality != "" {
		i, err := theory.ParseInterval(s.quality + strconv.Itoa(number))
		return i, err == nil
	}
	plain := theory.Interval{Number: number}
	return theory.Interval{Number: number, Semitones: s.altered - plain.Alteration()}, true
}

// namedAlone are the intervals that have a name without a number.
var namedAlone = map[string]theory.Interval{
	"tritone": theory.AugmentedFourth, "tri tone": theory.AugmentedFourth, "tt": theory.AugmentedFourth,
	"double octave": theory.DoubleOctave,
	"semitone":      theory.MinorSecond, "half step": theory.MinorSecond, "half tone": theory.MinorSecond,
	"tone": theory.MajorSecond, "whole step": theory.MajorSecond, "whole tone": theory.MajorSecond,
}

// intervalNamed understands an interval by its name. A second or a third is minor or major and has to say so; a
// number alone is that of a choice.
func intervalNamed(text string) (theory.Interval, bool) {
	if i, ok := namedAlone[words(text)]; ok {
		return i, true
	}
	number, s, ok := readDistance(text)
	if _, bare := wholeNumber(strings.TrimSpace(text)); !ok || bare {
		return theory.Interval{}, false
	}
	i, ok := s.of(number)
	doubtful := s == (size{}) && !strings.HasPrefix(i.String(), "P")
	return i, ok && !doubtful && plainlyNamed(i)
}

// toneNamed understands a tone of a chord: R or 1, 3, b3, #5, bb7, 9, an interval such as m3 or M7, or a name in
// words.
func toneNamed(text string) (theory.Interval, bool) {
	if w := words(text); w == "r" || w == "root" {
		return theory.Unison, true
	}
	number, s, ok := readDistance(text)
	if !ok || number > theory.Thirteenth.Number {
		return theory.Interval{}, false
	}
	return s.of(number)
}

// inFull writes out what people shorten in the name of an interval or of a chord: min 3rd becomes minor third, sus 4
// suspended fourth.
func inFull(w string) string {
	long := map[string]string{
		"maj": "major", "min": "minor", "dim": "diminished", "aug": "augmented", "sus": "suspended", "add": "added", "dom": "dominant",
	}
	fields := strings.Fields(w)
	for n, f := range fields {
		if number, ok := readNumber(f); ok && number > 1 {
			fields[n], _, _ = strings.Cut(numberNames[number-1], " ")
		} else if full, ok := long[f]; ok {
			fields[n] = full
		}
	}
	return strings.Join(fields, " ")
}
