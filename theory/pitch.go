package theory

import (
	"fmt"
	"math"
	"strconv"
)

// StandardA4 is the frequency of A4 in Hz. Source: ISO 16:1975.
const StandardA4 = 440.0

// Pitch is a spelled note in an octave, in scientific pitch notation: middle C is C4. The octave
// belongs to the letter, so B♯3 and C4 sound the same.
type Pitch struct {
	Note
	Octave int
}

// MIDI returns the MIDI note number: A4 is 69, C4 is 60 (MIDI 1.0).
func (p Pitch) MIDI() int { return 12*(p.Octave+1) + letterClass[p.Letter] + int(p.Alter) }

// Frequency returns the frequency in Hz in twelve-tone equal temperament, for A4 at a4 Hz.
func (p Pitch) Frequency(a4 float64) float64 { return MIDIFrequency(p.MIDI(), a4) }

// MIDIFrequency returns the frequency in Hz of a MIDI note number for A4 (number 69) at a4 Hz:
// a4 · 2^((n−69)/12).
func MIDIFrequency(n int, a4 float64) float64 { return a4 * math.Exp2(float64(n-69)/12) }

// Up returns the pitch an interval higher, spelled by the interval's number.
func (p Pitch) Up(i Interval) Pitch {
	n := p.Note.Up(i)
	return Pitch{n, p.Octave + (int(p.Letter)+i.Number-1)/7}
}

// Down returns the pitch an interval lower, spelled by the interval's number.
func (p Pitch) Down(i Interval) Pitch {
	n := p.Note.Down(i)
	return Pitch{n, p.Octave + floorDiv(int(p.Letter)-(i.Number-1), 7)}
}

// Spell returns the pitch with the given MIDI number that is written as note n.
// It reports false if n is of another pitch class.
func Spell(midi int, n Note) (Pitch, bool) {
	if mod(midi, 12) != n.Class() {
		return Pitch{}, false
	}
	return Pitch{n, (midi-letterClass[n.Letter]-int(n.Alter))/12 - 1}, true
}

// String writes the pitch as it is printed: E4, B♭3.
func (p Pitch) String() string { return p.Note.String() + strconv.Itoa(p.Octave) }

// ParsePitch reads a pitch as String or ASCII writes it, for tables: G4, Bb3, F#-1.
func ParsePitch(s string) (Pitch, error) {
	n, rest, err := cutNote(s)
	if err != nil {
		return Pitch{}, err
	}
	o, err := strconv.Atoi(rest)
	if err != nil || o < -1 || o > 9 {
		return Pitch{}, fmt.Errorf("%q is not a pitch: a pitch is a note and an octave from -1 to 9, such as A4", Clip(s))
	}
	return Pitch{n, o}, nil
}
