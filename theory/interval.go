package theory

import (
	"fmt"
	"strconv"
	"strings"
)

// Interval is a spelled distance upward: its number (1 a unison, 3 a third, 9 a ninth) and its
// size in semitones. Both are needed: an augmented fourth and a diminished fifth have six
// semitones each. The zero Interval is not valid; a unison is Interval{1, 0}.
type Interval struct {
	Number    int
	Semitones int
}

// The intervals that chords and drills name.
var (
	Unison          = Interval{1, 0}
	MinorSecond     = Interval{2, 1}
	MajorSecond     = Interval{2, 2}
	MinorThird      = Interval{3, 3}
	MajorThird      = Interval{3, 4}
	PerfectFourth   = Interval{4, 5}
	AugmentedFourth = Interval{4, 6}
	DiminishedFifth = Interval{5, 6}
	PerfectFifth    = Interval{5, 7}
	AugmentedFifth  = Interval{5, 8}
	MinorSixth      = Interval{6, 8}
	MajorSixth      = Interval{6, 9}
	DimSeventh      = Interval{7, 9}
	MinorSeventh    = Interval{7, 10}
	MajorSeventh    = Interval{7, 11}
	Octave          = Interval{8, 12}
	MinorNinth      = Interval{9, 13}
	MajorNinth      = Interval{9, 14}
	AugmentedNinth  = Interval{9, 15}
	MinorTenth      = Interval{10, 15}
	MajorTenth      = Interval{10, 16}
	Eleventh        = Interval{11, 17}
	SharpEleventh   = Interval{11, 18}
	Twelfth         = Interval{12, 19}
	MinorThirteenth = Interval{13, 20}
	Thirteenth      = Interval{13, 21}
	DoubleOctave    = Interval{15, 24}
)

// majorSize is the size of the major or perfect interval of each simple number, 1 to 7.
var majorSize = [7]int{0, 2, 4, 5, 7, 9, 11}

// natural returns the size of the major or perfect interval with this number.
func natural(number int) int { return majorSize[(number-1)%7] + 12*((number-1)/7) }

// perfect reports whether intervals of this number are perfect (unison, fourth, fifth and their
// compounds) and so have no major and minor form.
func perfect(number int) bool {
	switch (number - 1) % 7 {
	case 0, 3, 4:
		return true
	}
	return false
}

// Plain returns the major or perfect interval of a number from 1 up.
func Plain(number int) Interval { return Interval{number, natural(number)} }

// Alteration returns how many semitones i is away from the major or perfect interval of its
// number: the accidental a chord formula writes before the number.
func (i Interval) Alteration() int { return i.Semitones - natural(i.Number) }

// Compound reports whether i is larger than an octave, as spelled.
func (i Interval) Compound() bool { return i.Number > 8 }

// Simple returns i brought within an octave: a ninth becomes a second, an octave stays.
func (i Interval) Simple() Interval {
	for i.Number > 8 {
		i.Number -= 7
		i.Semitones -= 12
	}
	return i
}

// Plus returns the sum of two intervals, spelled.
func (i Interval) Plus(j Interval) Interval {
	return Interval{i.Number + j.Number - 1, i.Semitones + j.Semitones}
}

// String writes the interval's short name: quality and number, such as P1, m3, M3, A4, d5, M9.
// Doubly augmented and diminished intervals are written AA and dd.
func (i Interval) String() string { return i.quality() + strconv.Itoa(i.Number) }

func (i Interval) quality() string {
	alt := i.Alteration()
	switch {
	case perfect(i.Number) && alt == 0:
		return "P"
	case alt == 0:
		return "M"
	case !perfect(i.Number) && alt == -1:
		return "m"
	case alt > 0:
		return strings.Repeat("A", alt)
	case perfect(i.Number):
		return strings.Repeat("d", -alt)
	}
	return strings.Repeat("d", -alt-1)
}

// Degree writes the interval as a chord formula does: R, 3, ♭3, 5, ♯5, ♭7, 7, 9.
func (i Interval) Degree() string { return i.degree("♯", "♭") }

// DegreeASCII writes the interval as a chord formula is typed: R, 3, b3, 5, #5, b7, 7, 9.
func (i Interval) DegreeASCII() string { return i.degree("#", "b") }

func (i Interval) degree(sharp, flat string) string {
	if i == Unison {
		return "R"
	}
	return accidental(int8(i.Alteration()), sharp, flat) + strconv.Itoa(i.Number)
}

var numberNames = []string{
	"unison", "second", "third", "fourth", "fifth", "sixth", "seventh", "octave", "ninth",
	"tenth", "eleventh", "twelfth", "thirteenth", "fourteenth", "double octave",
}

// Name writes the interval in words: perfect fifth, minor third, augmented fourth, unison.
func (i Interval) Name() string {
	number := i.Ordinal()
	if i.Alteration() == 0 && (i.Number-1)%7 == 0 {
		return number
	}
	return qualityWord(i.quality()) + " " + number
}

// Ordinal writes the interval's number in words: third, octave, ninth.
func (i Interval) Ordinal() string {
	if i.Number < 1 || i.Number > len(numberNames) {
		return fmt.Sprintf("%dth", i.Number)
	}
	return numberNames[i.Number-1]
}

func qualityWord(q string) string {
	word := map[byte]string{'P': "perfect", 'M': "major", 'm': "minor", 'A': "augmented", 'd': "diminished"}[q[0]]
	switch len(q) {
	case 1:
		return word
	case 2:
		return "doubly " + word
	}
	return fmt.Sprintf("%d times %s", len(q), word)
}

// ParseInterval reads an interval's short name (M3, P5, A4, dd7), quality first, as String writes it. What people type
// is read by package read.
func ParseInterval(s string) (Interval, error) {
	quality := strings.TrimRight(s, "0123456789")
	number, err := strconv.Atoi(s[len(quality):])
	if err == nil && number >= 1 && number <= 29 && quality != "" && len(quality) <= 3 {
		alter, letter := len(quality), quality[0]
		if strings.Count(quality, quality[:1]) != alter {
			letter = 0 // mixed, such as Ad4
		}
		switch {
		case letter == 'A':
			return Interval{number, natural(number) + alter}, nil
		case letter == 'd' && perfect(number):
			return Interval{number, natural(number) - alter}, nil
		case letter == 'd':
			return Interval{number, natural(number) - alter - 1}, nil
		case quality == "P" && perfect(number), quality == "M" && !perfect(number):
			return Interval{number, natural(number)}, nil
		case quality == "m" && !perfect(number):
			return Interval{number, natural(number) - 1}, nil
		}
	}
	return Interval{}, fmt.Errorf("%q is not an interval: write its quality (P, M, m, A, d) and number, such as m3 or P5", Clip(s))
}
