package read

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"sparetone/theory"
)

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

// IsSize reports whether a text is the size of an interval alone: minor, flat, m.
func IsSize(text string) bool {
	_, ok := readSize(text)
	return ok
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
	if len(text) > 1 && text[0] == 'x' && unicode.IsDigit(rune(text[1])) { // an x alone is a string that is not played
		text = "##" + text[1:]
	}
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
	number, known := Number(strings.ToLower(words[last]))
	s, sized := readSize(strings.Join(words[:last], " "))
	return number, s, known && sized
}

// of returns the interval of a number and this size; not every number has every quality.
func (s size) of(number int) (theory.Interval, bool) {
	if s.quality != "" {
		i, err := theory.ParseInterval(s.quality + strconv.Itoa(number))
		return i, err == nil
	}
	i := theory.Plain(number)
	i.Semitones += s.altered
	return i, true
}

// namedAlone are the intervals that have a name without a number.
var namedAlone = map[string]theory.Interval{
	"tritone": theory.AugmentedFourth, "tri tone": theory.AugmentedFourth, "tt": theory.AugmentedFourth,
	"double octave": theory.DoubleOctave,
	"semitone":      theory.MinorSecond, "half step": theory.MinorSecond, "half tone": theory.MinorSecond,
	"tone": theory.MajorSecond, "whole step": theory.MajorSecond, "whole tone": theory.MajorSecond,
}

// Interval reads an interval by its name: m3, minor third, min 3rd, b3, tritone. A second or a third is minor or major
// and has to say so; a number alone is none.
func Interval(text string) (theory.Interval, error) {
	i, ok := intervalNamed(text)
	if !ok {
		return theory.Interval{}, UnreadError{text, AnInterval}
	}
	return i, nil
}

func intervalNamed(text string) (theory.Interval, bool) {
	if i, ok := namedAlone[Words(text)]; ok {
		return i, true
	}
	number, s, ok := readDistance(text)
	if _, bare := WholeNumber(strings.TrimSpace(text)); !ok || bare {
		return theory.Interval{}, false
	}
	i, ok := s.of(number)
	doubtful := s == (size{}) && !strings.HasPrefix(i.String(), "P")
	return i, ok && !doubtful && PlainlyNamed(i)
}

// PlainlyNamed reports whether an interval is at most once diminished or augmented.
func PlainlyNamed(i theory.Interval) bool {
	return len(strings.TrimRight(i.String(), "0123456789")) == 1
}

// Degree reads a tone of a chord: R or 1, 3, b3, #5, bb7, 9, an interval such as m3 or M7, or a name in words.
func Degree(text string) (theory.Interval, error) {
	i, ok := degreeNamed(text)
	if !ok {
		return theory.Interval{}, UnreadError{text, ATone}
	}
	return i, nil
}

func degreeNamed(text string) (theory.Interval, bool) {
	if w := Words(text); w == "r" || w == "root" {
		return theory.Unison, true
	}
	number, s, ok := readDistance(text)
	if !ok || number > theory.Thirteenth.Number {
		return theory.Interval{}, false
	}
	return s.of(number)
}
