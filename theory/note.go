package theory

import (
	"fmt"
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

// String writes the note as it is printed: C, F♯, B♭, C♯♯, D♭♭.
func (n Note) String() string { return n.Letter.String() + accidental(n.Alter, "♯", "♭") }

// ASCII writes the note as it is typed: C, F#, Bb.
func (n Note) ASCII() string { return n.Letter.String() + accidental(n.Alter, "#", "b") }

func accidental(alter int8, sharp, flat string) string {
	if alter < 0 {
		return strings.Repeat(flat, int(-alter))
	}
	return strings.Repeat(sharp, int(alter))
}

// ParseNote reads a note: a letter of either case and any number (up to three) of accidentals,
// written #, b, ♯, ♭, x, 𝄪 or 𝄫. The error says what was read and what would be right.
func ParseNote(s string) (Note, error) {
	n, rest, err := cutNote(s)
	if err != nil {
		return Note{}, err
	}
	if rest != "" {
		return Note{}, fmt.Errorf("%q is not a note: a note is a letter from A to G with # or b, such as F# or Bb", clip(s))
	}
	return n, nil
}

// cutNote reads the note that s starts with and returns what follows it.
func cutNote(s string) (n Note, rest string, err error) {
	i := -1
	if s != "" {
		i = strings.IndexByte("CDEFGABcdefgab", s[0])
	}
	if i < 0 {
		return Note{}, s, fmt.Errorf("%q does not start with a note: a note is a letter from A to G with # or b, such as F# or Bb", clip(s))
	}
	n.Letter = Letter(i % 7)
	rest = s[1:]
	for {
		step, size := accidentalAt(rest)
		alter := int(n.Alter) + step
		if size == 0 || int(n.Alter)*step < 0 || alter < -3 || alter > 3 {
			break
		}
		n.Alter = int8(alter)
		rest = rest[size:]
	}
	return n, rest, nil
}

// accidentals lists every sign an alteration is written with, and its semitones.
var accidentals = []struct {
	sign string
	step int
}{
	{"#", 1}, {"♯", 1}, {"𝄪", 2}, {"x", 2},
	{"b", -1}, {"♭", -1}, {"𝄫", -2}, {"♮", 0},
}

func accidentalAt(s string) (step, size int) {
	for _, a := range accidentals {
		if strings.HasPrefix(s, a.sign) {
			return a.step, len(a.sign)
		}
	}
	return 0, 0
}

// clip shortens what a person typed so that an error stays one line.
func clip(s string) string {
	r := []rune(s)
	if len(r) > 24 {
		return string(r[:23]) + "…"
	}
	return s
}

func mod(a, n int) int { return ((a % n) + n) % n }

func floorDiv(a, n int) int { return (a - mod(a, n)) / n }
