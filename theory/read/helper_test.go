package read_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sparetone/theory"
)

// notes writes notes as they are printed.
func notes(ns []theory.Note) string {
	words := make([]string, len(ns))
	for i, n := range ns {
		words[i] = n.String()
	}
	return strings.Join(words, " ")
}

// typed reads a row of notes as tables write them.
func typed(t testing.TB, row string) []theory.Note {
	t.Helper()
	var out []theory.Note
	for _, s := range strings.Fields(row) {
		n, err := theory.ParseNote(s)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, n)
	}
	return out
}

// anyNote draws a note with up to two accidentals.
func anyNote(t *rapid.T, label string) theory.Note {
	return theory.Note{
		Letter: theory.Letter(rapid.IntRange(0, 6).Draw(t, label+" letter")),
		Alter:  int8(rapid.IntRange(-2, 2).Draw(t, label+" alteration")),
	}
}

// anyChord draws a chord of any kind, with any tones left out that its kind allows.
func anyChord(t *rapid.T) theory.Chord {
	c := theory.NewChord(anyNote(t, "root"), rapid.SampledFrom(theory.Kinds()).Draw(t, "kind"))
	if rapid.Bool().Draw(t, "slash") {
		c.Bass = anyNote(t, "bass")
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
