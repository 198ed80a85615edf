package theory

import (
	"fmt"
	"slices"
	"strings"
)

// Letter is one of the seven note letters, counted from C = 0 to B = 6.
type Letter int8

// The seven letters in the order in which octaves are counted.
const (
	C Letter = iota
	D
	E
	F
	G
	A
	B
)

// letterClass is the pitch class of each natural note, in semitones above C.
var letterClass = [7]int{0, 2, 4, 5, 7, 9, 11}

// String returns the letter in upper case.
func (l Letter) String() string { return "CDEFGAB"[l : l+1] }

// Note is a spelled pitch class: a letter and how many semitones it is altered, flats negative.
// The zero Note is C. Notes compare with ==, by spelling.
type Note struct {
	Letter Letter
	Alter  int8
}

// Class returns the pitch class, 0 (C) to 11 (B).
func (n Note) Class() int { return mod(letterClass[n.Letter]+int(n.Alter), 12) }

// Same reports whether two notes sound the same in equal temperament, whatever their spelling.
func (n Note) Same(m Note) bool { return n.Class() == m.Class() }

// Up returns the note an interval higher, spelled by the interval's number.
func (n Note) Up(i Interval) Note {
	steps := int(n.Letter) + i.Number - 1
	l := Letter(steps % 7)
	natural := letterClass[l] + 12*(steps/7)
	return Note{l, int8(letterClass[n.Letter] + int(n.Alter) + i.Semitones - natural)}
}

// Down returns the note an interval lower, spelled by the interval's number.
func (n Note) Down(i Interval) Note {
	steps := int(n.Letter) - (i.Number - 1)
	octave := floorDiv(steps, 7)
	l := Letter(steps - 7*octave)
	natural := letterClass[l] + 12*octave
	return Note{l, int8(letterClass[n.Letter] + int(n.Alter) - i.Semitones - natural)}
}

// To returns the simple ascending interval from n to m, smaller than an octave as spelled.
func (n Note) To(m Note) Interval {
	number := mod(int(m.Letter)-int(n.Letter), 7) + 1
	size := mod(letterClass[m.Letter]-letterClass[n.Letter], 12) + int(m.Alter) - int(n.Alter)
	return Interval{number, size}
}

// String writes the note as it is printed: C, F♯, B♭, Cx, D♭♭. A double sharp is an x, which every font has.
func (n Note) String() string { return n.Letter.String() + accidental(n.Alter, "♯", "♭") }

// ASCII writes the note as it is typed: C, F#, Bb, Cx, Dbb.
func (n Note) ASCII() string { return n.Letter.String() + accidental(n.Alter, "#", "b") }

// doubleSharp is how two sharps are written, printed and typed.
const doubleSharp = "x"

func accidental(alter int8, sharp, flat string) string {
	if alter < 0 {
		return strings.Repeat(flat, int(-alter))
	}
	return strings.Repeat(sharp, int(alter%2)) + strings.Repeat(doubleSharp, int(alter/2))
}

// ParseNote reads a note as String or ASCII writes it, for tables: a capital letter and at most three sharps or
// flats. What people type is read by package read.
func ParseNote(s string) (Note, error) {
	n, rest, err := cutNote(s)
	if err == nil && rest != "" {
		err = fmt.Errorf("%q is not a note: a note is a letter from A to G with # or b, such as F# or Bb", Clip(s))
	}
	return n, err
}

// cutNote reads the note that s starts with and returns what follows it.
func cutNote(s string) (n Note, rest string, err error) {
	l := -1
	if s != "" {
		l = strings.IndexByte("CDEFGAB", s[0])
	}
	if l < 0 {
		return Note{}, s, fmt.Errorf("%q does not start with a note: a note is a letter from A to G with # or b, such as F# or Bb", Clip(s))
	}
	n.Letter = Letter(l)
	n.Alter, rest = CutAccidentals(s[1:])
	return n, rest, nil
}

// mostAltered is how many semitones a note is altered at most where one is read.
const mostAltered = 3

// accidentalSign is a sign of alteration, and its semitones.
type accidentalSign struct {
	sign string
	step int8
}

// accidentals lists every sign that an alteration is written with.
var accidentals = []accidentalSign{
	{"#", 1}, {"♯", 1}, {"x", 2}, {"𝄪", 2},
	{"b", -1}, {"♭", -1}, {"𝄫", -2}, {"♮", 0},
}

// CutAccidentals reads the signs that s starts with, as many as make an alteration of at most three semitones one
// way, and returns what follows them.
func CutAccidentals(s string) (alter int8, rest string) {
	for {
		n := slices.IndexFunc(accidentals, func(a accidentalSign) bool { return strings.HasPrefix(s, a.sign) })
		if n < 0 {
			return alter, s
		}
		a := accidentals[n]
		sum := alter + a.step
		if alter*a.step < 0 || sum < -mostAltered || sum > mostAltered {
			return alter, s
		}
		alter, s = sum, s[len(a.sign):]
	}
}

func mod(a, n int) int { return ((a % n) + n) % n }

func floorDiv(a, n int) int { return (a - mod(a, n)) / n }
