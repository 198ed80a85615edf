package say

import (
	"strings"

	"sparetone/theory"
)

// Note is a note: F♯, said F sharp.
type Note theory.Note

func (n Note) print(p *printer) {
	note := theory.Note(n)
	p.either(note.String(), theory.Spoken(note))
}

// Notes are notes as facts.
func Notes(notes []theory.Note) []Note {
	out := make([]Note, len(notes))
	for i, n := range notes {
		out[i] = Note(n)
	}
	return out
}

// Pitch is a note in an octave: F♯4, said F sharp 4.
type Pitch theory.Pitch

func (h Pitch) print(p *printer) {
	pitch := theory.Pitch(h)
	if pitch.Note.Alter == 0 || p.face != aloud {
		p.write(pitch.String())
		return
	}
	octave := strings.TrimPrefix(pitch.String(), pitch.Note.String())
	p.write(theory.Spoken(pitch.Note) + " " + octave)
}

// Role is what a tone is in a chord: the minor third.
type Role theory.Interval

func (r Role) print(p *printer) { p.write(theory.Interval(r).Role()) }

// Roles are tones as facts.
func Roles(tones []theory.Interval) []Role {
	out := make([]Role, len(tones))
	for i, t := range tones {
		out[i] = Role(t)
	}
	return out
}

// Part is what a tone is in a chord without its article, and of thirds and sevenths without which: root, third, flat fifth.
type Part theory.Interval

func (r Part) print(p *printer) { p.write(theory.Interval(r).Part()) }

// Ordinal is the number of a tone or an interval in words: third, ninth.
type Ordinal theory.Interval

func (o Ordinal) print(p *printer) { p.write(theory.Interval(o).Ordinal()) }

// Interval is an interval by its name: minor third.
type Interval theory.Interval

func (i Interval) print(p *printer) { p.write(theory.Interval(i).Name()) }

// Degree is a tone as it is written in a formula: ♭7, said flat 7.
type Degree theory.Interval

func (d Degree) print(p *printer) {
	i := theory.Interval(d)
	if p.face == aloud {
		if sign := alteration(i.Alteration()); sign != "" {
			p.write(sign + " " + theory.Interval{Number: i.Number, Semitones: i.Semitones - i.Alteration()}.Degree())
			return
		}
	}
	p.write(i.Degree())
}

// alteration says sharps, or flats below zero: sharp, flat flat.
func alteration(by int) string {
	if by < 0 {
		return strings.TrimSuffix(strings.Repeat("flat ", -by), " ")
	}
	return strings.TrimSuffix(strings.Repeat("sharp ", by), " ")
}

// Key is a key: B♭ minor, said B flat minor.
type Key theory.Key

func (k Key) print(p *printer) {
	key := theory.Key(k)
	Scale{key.Tonic, key.Mode()}.print(p)
}

// TypedKey is a key as it is typed, Bb minor, and said B flat minor.
type TypedKey theory.Key

func (k TypedKey) print(p *printer) {
	if p.face == aloud {
		Key(k).print(p)
		return
	}
	p.write(theory.Key(k).ASCII())
}

// Scale is a scale by its tonic and its name: A harmonic minor.
type Scale struct {
	Tonic theory.Note
	Name  string
}

func (s Scale) print(p *printer) {
	Note(s.Tonic).print(p)
	p.write(" " + s.Name)
}

// Standing is what a note is in a key: the raised seventh.
type Standing theory.Standing

func (s Standing) print(p *printer) { p.write(theory.Standing(s).String()) }
