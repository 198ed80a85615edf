package theory

import "strings"

// Spoken writes a note in words, for screen readers and explanations: B flat, F sharp, C double sharp.
func Spoken(n Note) string {
	sign := ""
	switch {
	case n.Alter == 1:
		sign = " sharp"
	case n.Alter == -1:
		sign = " flat"
	case n.Alter == 2:
		sign = " double sharp"
	case n.Alter == -2:
		sign = " double flat"
	case n.Alter > 2:
		sign = strings.Repeat(" sharp", int(n.Alter))
	case n.Alter < -2:
		sign = strings.Repeat(" flat", int(-n.Alter))
	}
	return n.Letter.String() + sign
}

// Role writes what a tone is in a chord, in words: the root, the major third, the minor seventh, the ninth.
// The third of a minor chord is the minor third; sevenths are minor or major, as players say.
func (i Interval) Role() string {
	if i.thirdOrSeventh() {
		return "the " + qualityWord(i.quality()) + " " + i.Ordinal()
	}
	return "the " + i.Part()
}

// Part writes what a tone is in a chord without its article, and of thirds and sevenths without which: root, third, flat
// fifth.
func (i Interval) Part() string {
	switch alt := i.Alteration(); {
	case i == Unison:
		return "root"
	case i.Number < 1 || i.Number > len(numberNames):
		return i.Name()
	case i.thirdOrSeventh() || alt == 0:
		return i.Ordinal()
	case alt < 0:
		return strings.Repeat("flat ", -alt) + i.Ordinal()
	default:
		return strings.Repeat("sharp ", alt) + i.Ordinal()
	}
}

// thirdOrSeventh reports whether i is minor or major as players say, an octave up as well.
func (i Interval) thirdOrSeventh() bool {
	return i.Number == 3 || i.Number == 10 || i.Number == 7 || i.Number == 14
}
