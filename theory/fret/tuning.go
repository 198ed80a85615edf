// Package fret holds fretted instruments: tunings, shapes, what each string of a shape sounds, which
// note is doubled, and what may replace it. It is pure, as package theory is.
package fret

import "sparetone/theory"

// Tuning is the open strings of an instrument in playing order: the order in which shapes are
// written and diagrams drawn. The order is not by pitch, so re-entrant tunings are ordinary.
type Tuning struct {
	Name    string         // what a person types: ukulele, gCEA, …
	Title   string         // what a person reads
	Strings []theory.Pitch // open strings, in playing order; string 1 is the last
	Frets   int            // frets on the neck
}

// StringNumber returns the trade's number of the string at index i: the last string is 1.
func (t *Tuning) StringNumber(i int) int { return len(t.Strings) - i }
