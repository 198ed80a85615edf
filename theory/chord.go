package theory

import (
	"strconv"
	"strings"
)

// Chord is a root, a kind and a bass, with the tones that are left out. Chords compare with ==.
type Chord struct {
	Kind    *Kind
	Root    Note
	Bass    Note    // the root, unless a slash chord says otherwise
	Without ToneSet // tones of the kind's formula that do not sound
}

// ToneSet is a set of tones of a formula: bit n stands for Formula[n].
type ToneSet uint16

// Has reports whether the n-th tone of the formula is in the set.
func (s ToneSet) Has(n int) bool { return s&(1<<n) != 0 }

// NewChord returns the chord of a kind on a root, complete, with its root in the bass.
func NewChord(root Note, k *Kind) Chord { return Chord{Root: root, Kind: k, Bass: root} }

// Tones returns the chord's notes in the order of its formula, without those left out. A bass
// foreign to the chord is not among them.
func (c Chord) Tones() []Note {
	out := make([]Note, 0, len(c.Kind.Formula))
	for n, i := range c.Kind.Formula {
		if !c.Without.Has(n) {
			out = append(out, c.Root.Up(i))
		}
	}
	return out
}

// Missing returns the tones of the formula that are left out.
func (c Chord) Missing() []Interval {
	var out []Interval
	for n, i := range c.Kind.Formula {
		if c.Without.Has(n) {
			out = append(out, i)
		}
	}
	return out
}

// Lacks returns the tones left out that the chord's kind may not lose, so that its name says them: the third of C7(no3).
func (c Chord) Lacks() []Interval {
	var out []Interval
	lacks := c.lacks()
	for n, i := range c.Kind.Formula {
		if lacks.Has(n) {
			out = append(out, i)
		}
	}
	return out
}

// Symbol writes the chord as it is typed: C, F#m7b5, Bb/D. Of the tones left out those are written that its kind may not
// lose: C7(no3).
func (c Chord) Symbol() string { return c.typed(c.lacks()) }

// FullSymbol writes the chord as it is typed, with the tones left out: C7(no5), C13(no5,no9)/Bb. It is read back to
// the same chord.
func (c Chord) FullSymbol() string { return c.typed(c.Without) }

// String writes the chord as it is printed: C, F♯m7♭5, B♭/D, C7(no3).
func (c Chord) String() string { return c.printed(c.lacks()) }

// FullString writes the chord as it is printed, with the tones left out: C7(no5), F♯m7♭5(no♭3).
func (c Chord) FullString() string { return c.printed(c.Without) }

// typed writes the chord in ASCII, and some of its tones as left out.
func (c Chord) typed(without ToneSet) string {
	s := c.Root.ASCII() + c.Kind.Symbols[0] + c.writeWithout(without, Interval.DegreeASCII)
	if c.Bass != c.Root {
		s += "/" + c.Bass.ASCII()
	}
	return s
}

// printed writes the chord with the signs of music, and some of its tones as left out.
func (c Chord) printed(without ToneSet) string {
	s := c.Root.String() + pretty(c.Kind.Symbols[0]) + c.writeWithout(without, Interval.Degree)
	if c.Bass != c.Root {
		s += "/" + c.Bass.String()
	}
	return s
}

// writeWithout writes which tones are left out; nothing if none are. A tone that is the first with its number is named
// by that alone.
func (c Chord) writeWithout(without ToneSet, degree func(Interval) string) string {
	var no []string
	for n, i := range c.Kind.Formula {
		if !without.Has(n) {
			continue
		}
		if c.Kind.Numbered(i.Number) == n {
			no = append(no, "no"+strconv.Itoa(i.Number))
		} else {
			no = append(no, "no"+degree(i))
		}
	}
	if no == nil {
		return ""
	}
	return "(" + strings.Join(no, ",") + ")"
}

// pretty writes the accidentals of a typed suffix with their signs: m7b5 becomes m7♭5.
func pretty(suffix string) string {
	var b strings.Builder
	for i := 0; i < len(suffix); i++ {
		digit := i+1 < len(suffix) && suffix[i+1] >= '0' && suffix[i+1] <= '9'
		switch {
		case suffix[i] == 'b' && digit:
			b.WriteString("♭")
		case suffix[i] == '#' && digit:
			b.WriteString("♯")
		default:
			b.WriteByte(suffix[i])
		}
	}
	return b.String()
}
