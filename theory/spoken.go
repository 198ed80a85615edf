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
	if i == Unison {
		return "the root"
	}
	number := i.Number
	word := ""
	switch alt := i.Alteration(); {
	case number == 3 || number == 10 || number == 7 || number == 14:
		word = qualityWord(i.quality()) + " "
	case alt < 0:
		word = strings.Repeat("flat ", -alt)
	case alt > 0:
		word = strings.Repeat("sharp ", alt)
	}
	if number < 1 || number > len(numberNames) {
		return "the " + i.Name()
	}
	return "the " + word + numberNames[number-1]
}
