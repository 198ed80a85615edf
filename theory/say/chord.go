package say

import (
	"strings"

	"sparetone/theory"
)

// Chord is a chord by its symbol: F♯m7, said F sharp minor seventh. A symbol of a letter and a figure speaks well as it
// is: C7.
type Chord theory.Chord

func (c Chord) print(p *printer) {
	chord := theory.Chord(c)
	if p.face != aloud {
		p.write(chord.String())
		return
	}
	spokenChord(p, chord, shortKind(chord))
}

// InFull is a chord by its symbol, said with the name of its kind: C is said C major, C7 C seventh.
type InFull theory.Chord

func (c InFull) print(p *printer) {
	chord := theory.Chord(c)
	if p.face != aloud {
		p.write(chord.String())
		return
	}
	spokenChord(p, chord, " "+chord.Kind.Name)
}

// Titled is a chord by its symbol, with the name of its kind where the symbol has that in short: Am7, minor seventh. A name
// of one word says no more than its symbol does: C, Am, Bdim, C7.
type Titled theory.Chord

func (c Titled) print(p *printer) {
	Chord(c).print(p)
	if p.face != aloud && strings.Contains(c.Kind.Name, " ") {
		p.write(", " + c.Kind.Name)
	}
}

// TypedChord is a chord by its symbol as it is typed, F#m7, said F sharp minor seventh.
type TypedChord theory.Chord

func (c TypedChord) print(p *printer) {
	if p.face == aloud {
		Chord(c).print(p)
		return
	}
	p.write(theory.Chord(c).Symbol())
}

// Chords are chords as facts.
func Chords(chords []theory.Chord) []Chord {
	out := make([]Chord, len(chords))
	for i, c := range chords {
		out[i] = Chord(c)
	}
	return out
}

// Kind is a kind of chord by its name: minor seventh.
type Kind struct{ *theory.Kind }

func (k Kind) print(p *printer) { p.write(k.Name) }

// isFigure reports whether a kind's symbol is a figure or nothing at all.
func isFigure(k *theory.Kind) bool { return strings.Trim(k.Symbols[0], "0123456789") == "" }

// shortKind is how a kind is said after its root, with what parts them.
func shortKind(c theory.Chord) string {
	switch symbol := c.Kind.Symbols[0]; {
	case !isFigure(c.Kind):
		return " " + c.Kind.Name
	case symbol != "" && c.Root.Alter != 0:
		return " " + symbol
	default:
		return symbol
	}
}

// spokenChord says a chord: its root, its kind, which tones it lacks and its bass.
func spokenChord(p *printer, c theory.Chord, kind string) {
	p.write(theory.Spoken(c.Root) + kind)
	if lacks := c.Lacks(); len(lacks) > 0 {
		p.write(" without ")
		And(Roles(lacks)...).print(p)
	}
	if c.Bass != c.Root {
		p.write(" over " + theory.Spoken(c.Bass))
	}
}

// Numeral is a chord by its Roman numeral in a key: vii°, said seven diminished.
type Numeral struct {
	Key   theory.Key
	Chord theory.Chord
}

// cardinals are the degrees of a key in words.
var cardinals = [...]string{1: "one", "two", "three", "four", "five", "six", "seven"}

func (n Numeral) print(p *printer) {
	if p.face != aloud {
		p.large = false // ii is minor, and II is not
		p.write(n.Key.Numeral(n.Chord))
		return
	}
	degree, alter := n.Key.Degree(n.Chord)
	if alter != 0 {
		p.write(alteration(alter) + " ")
	}
	p.write(cardinals[degree])
	switch symbol := n.Chord.Kind.Symbols[0]; {
	case !isFigure(n.Chord.Kind):
		p.write(" " + n.Chord.Kind.Name)
	case symbol != "":
		p.write(" " + symbol)
	}
}

// Numerals are chords of a key by their numerals: I vi IV, said one, six minor, four.
type Numerals struct {
	Key    theory.Key
	Chords []theory.Chord
}

func (n Numerals) print(p *printer) {
	for i, c := range n.Chords {
		if i > 0 {
			p.either(" ", ", ")
		}
		Numeral{n.Key, c}.print(p)
	}
}
