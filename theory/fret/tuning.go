// Package fret holds fretted instruments: tunings, shapes, what each string of a shape sounds, which
// note is doubled, and what may replace it. It is pure, as package theory is.
package fret

import (
	"fmt"
	"slices"

	"sparetone/theory"
)

// Tuning is the open strings of an instrument in playing order: the order in which shapes are
// written and diagrams drawn. The order is not by pitch, so re-entrant tunings are ordinary.
type Tuning struct {
	Name    string         // what a person types: ukulele, gCEA, …
	Title   string         // what a person reads
	Strings []theory.Pitch // open strings, in playing order; string 1 is the last
	Frets   int            // frets on the neck
	Short   int            // fret at which the first string begins: 5 on a five-string banjo, 0 if at the nut
	Scale   float64        // length of the open strings in mm, of which the frets take their part; a capo shortens it
	Capoed  int            // frets that a capo takes off the neck; 0 for no capo
}

// StringNumber returns the trade's number of the string at index i: the last string is 1.
func (t *Tuning) StringNumber(i int) int { return len(t.Strings) - i }

// Start returns the fret at which the string at index i begins: 0 if at the nut. The frets up to and
// including it cannot be stopped on that string; its open string is written 0 all the same.
func (t *Tuning) Start(i int) int {
	if i == 0 {
		return t.Short
	}
	return 0
}

// MIDI returns the MIDI number of the string at index i stopped at a fret, 0 for open.
func (t *Tuning) MIDI(i, fret int) int {
	return t.Strings[i].MIDI() + max(0, fret-t.Start(i))
}

// lowestBass is the MIDI number, F2, below which an open string is heard as a bass, as on a guitar. Players of
// instruments that lie higher write Am, not Am/C, for 2000 on a ukulele (common practice, no source).
const lowestBass = 41

// HasBass reports whether the lowest open string is low enough to be heard as a bass. A capo takes no bass away: it changes what sounds, and
// not what a shape is called.
func (t *Tuning) HasBass() bool {
	return slices.ContainsFunc(t.Strings, func(p theory.Pitch) bool { return p.MIDI()-t.Capoed < lowestBass })
}

// Pitch returns what the string at index i sounds stopped at a fret, 0 for open, spelled as an open string
// is written: a chord may spell it otherwise.
func (t *Tuning) Pitch(i, fret int) theory.Pitch { return openPitch(t.MIDI(i, fret)) }

// Capo returns the tuning with a capo at a fret. Shapes are then written from the capo. It reports an
// error for a fret that is not on the neck.
func (t *Tuning) Capo(fret int) (*Tuning, error) {
	if fret < 0 || fret >= t.Frets {
		return nil, fmt.Errorf("capo at fret %d: on this neck it may sit at fret 1 to %d, and 0 is none", fret, t.Frets-1)
	}
	c := *t
	c.Strings = slices.Clone(t.Strings)
	for i, p := range c.Strings {
		c.Strings[i] = openPitch(p.MIDI() + fret)
	}
	c.Frets -= fret
	c.Capoed += fret
	c.Scale *= fretAt(fret)
	if fret > 0 {
		c.Name = fmt.Sprintf("%s capo %d", t.Name, fret)
		c.Title = fmt.Sprintf("%s, capo at fret %d", t.Title, fret)
	}
	return &c, nil
}

// openPitch spells a MIDI number as an open string is written: F♯ and C♯, but B♭, E♭ and A♭.
func openPitch(midi int) theory.Pitch {
	spelling := [12]theory.Note{
		{Letter: theory.C}, {Letter: theory.C, Alter: 1}, {Letter: theory.D}, {Letter: theory.E, Alter: -1},
		{Letter: theory.E}, {Letter: theory.F}, {Letter: theory.F, Alter: 1}, {Letter: theory.G},
		{Letter: theory.A, Alter: -1}, {Letter: theory.A}, {Letter: theory.B, Alter: -1}, {Letter: theory.B},
	}
	p, _ := theory.Spell(midi, spelling[mod(midi, 12)])
	return p
}
