// Package drawn draws notes and chords at random for tests of the rooms that read and name them. The program does not use it.
package drawn

import (
	"pgregory.net/rapid"

	"sparetone/theory"
)

// Note draws a note with up to two accidentals.
func Note(t *rapid.T, label string) theory.Note {
	return theory.Note{
		Letter: theory.Letter(rapid.IntRange(0, 6).Draw(t, label+" letter")),
		Alter:  int8(rapid.IntRange(-2, 2).Draw(t, label+" alteration")),
	}
}

// Chord draws a chord of any kind, over any bass, with any tones left out that its kind allows.
func Chord(t *rapid.T) theory.Chord {
	c := theory.NewChord(Note(t, "root"), rapid.SampledFrom(theory.Kinds()).Draw(t, "kind"))
	if rapid.Bool().Draw(t, "slash") {
		c.Bass = Note(t, "bass")
	}
	for n, tone := range c.Kind.Formula {
		for _, may := range c.Kind.Omit {
			if may == tone && rapid.Bool().Draw(t, "without "+tone.String()) {
				c.Without |= 1 << n
			}
		}
	}
	return c
}
