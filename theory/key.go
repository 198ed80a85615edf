package theory

import "strings"

// Key is a major or a minor key. The zero Key is C major. Keys compare with ==.
type Key struct {
	Tonic Note
	Minor bool
}

// The scales, as intervals above the tonic. The minor scale is the natural one; its raised seventh
// comes in with the dominant chords (common practice).
var (
	majorScale = formula("P1 M2 M3 P4 P5 M6 M7")
	minorScale = formula("P1 M2 m3 P4 P5 m6 m7")
)

func (k Key) scale() []Interval {
	if k.Minor {
		return minorScale
	}
	return majorScale
}

// Notes returns the seven notes of the key from its tonic up; those of a minor key are natural minor.
func (k Key) Notes() []Note {
	out := make([]Note, 7)
	for n, i := range k.scale() {
		out[n] = k.Tonic.Up(i)
	}
	return out
}

// Contains reports whether the key has a note of this spelling.
func (k Key) Contains(n Note) bool {
	for _, i := range k.scale() {
		if k.Tonic.Up(i) == n {
			return true
		}
	}
	return false
}

// Triads returns the seven triads of the key, from the tonic's up.
func (k Key) Triads() []Chord { return k.stack(3) }

// Chords returns the seven triads of the key, then its seven seventh chords; and then, in a minor key, the chords
// that lead to the tonic with the raised seventh: V, V7, vii° and vii°7.
func (k Key) Chords() []Chord {
	out := append(k.stack(3), k.stack(4)...)
	if k.Minor {
		dominant, leading := k.Tonic.Up(PerfectFifth), k.Tonic.Up(MajorSeventh)
		for _, id := range []string{"major", "dominant"} {
			out = append(out, NewChord(dominant, kindByID[id]))
		}
		for _, id := range []string{"diminished", "diminished-seventh"} {
			out = append(out, NewChord(leading, kindByID[id]))
		}
	}
	return out
}

// stack builds a chord of so many thirds' tones on each note of the key.
func (k Key) stack(tones int) []Chord {
	notes := k.Notes()
	out := make([]Chord, 0, 7)
	for d, root := range notes {
		f := make([]Interval, tones)
		for t := range f {
			f[t] = root.To(notes[(d+2*t)%7])
		}
		if kind, ok := KindByFormula(f); ok {
			out = append(out, NewChord(root, kind))
		}
	}
	return out
}

// romans are the numerals of the seven degrees.
var romans = [7]string{"I", "II", "III", "IV", "V", "VI", "VII"}

// Degree returns on which degree of the key a chord stands, 1 to 7, and by how many semitones that is raised, or lowered
// below zero. The raised seventh of a minor key is its seventh degree where a minor or diminished chord stands on it.
func (k Key) Degree(c Chord) (number, alter int) {
	above := k.Tonic.To(c.Root)
	if third, _ := c.Kind.Tone(MinorThird); k.Minor && above == MajorSeventh && third == MinorThird {
		return above.Number, 0
	}
	return above.Number, above.Semitones - k.scale()[above.Number-1].Semitones
}

// Numeral writes a chord as its Roman numeral in the key: I, ii, V7, vii°, ♭VII, with lower case
// where the third is minor. The raised seventh of a minor key needs no sign: vii°7 stands on it.
func (k Key) Numeral(c Chord) string {
	alter, roman, suffix := k.numeral(c, "°", "ø7")
	return accidental(alter, "♯", "♭") + roman + pretty(suffix)
}

// TypedNumeral writes a chord as its Roman numeral is typed, in ASCII: I, ii, V7, viio, bVII, iim7b5.
func (k Key) TypedNumeral(c Chord) string {
	alter, roman, suffix := k.numeral(c, "o", "m7b5")
	return accidental(alter, "#", "b") + roman + suffix
}

// numeral returns the parts of a chord's numeral in the key: by how many semitones its degree is raised, the degree's
// numeral, and what follows it, with these signs for a diminished and a half-diminished chord.
func (k Key) numeral(c Chord, dim, halfDim string) (alter int8, roman, suffix string) {
	degree, by := k.Degree(c)
	roman, suffix = romans[degree-1], c.Kind.Symbols[0]
	if third, ok := c.Kind.Tone(MinorThird); ok && third == MinorThird {
		roman = strings.ToLower(roman)
		switch {
		case strings.HasPrefix(suffix, "dim"):
			suffix = dim + suffix[len("dim"):]
		case suffix == "m7b5":
			suffix = halfDim
		default:
			suffix = strings.TrimPrefix(suffix, "m")
		}
	} else if strings.HasPrefix(suffix, "aug") {
		suffix = "+" + suffix[len("aug"):]
	}
	return int8(by), roman, suffix
}

// String writes the key as it is printed: C major, B♭ minor.
func (k Key) String() string { return k.Tonic.String() + " " + k.Mode() }

// ASCII writes the key as it is typed: C major, Bb minor.
func (k Key) ASCII() string { return k.Tonic.ASCII() + " " + k.Mode() }

// Symbol writes the key as its tonic triad is written, in ASCII: C, Bbm.
func (k Key) Symbol() string {
	if k.Minor {
		return k.Tonic.ASCII() + "m"
	}
	return k.Tonic.ASCII()
}

// Mode is the key's mode in a word, major or minor.
func (k Key) Mode() string {
	if k.Minor {
		return "minor"
	}
	return "major"
}

// Signature returns the key's signature: so many sharps, or flats below zero.
func (k Key) Signature() int {
	f := k.Tonic.fifths()
	if k.Minor {
		f -= 3
	}
	return f
}
