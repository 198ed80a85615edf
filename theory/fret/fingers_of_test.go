package fret

import (
	"slices"
	"testing"

	"sparetone/theory"
)

func TestFingersOfAVoicing(t *testing.T) {
	f := theory.NewChord(theory.Note{Letter: theory.F}, theory.Kinds()[0])
	for _, c := range []struct {
		frets string
		chord theory.Chord
		want  []int
	}{
		{"2010", f, []int{2, 0, 1, 0}},
		{"5558", f, []int{1, 1, 1, 3}},
		{"123456", f, nil},
		{"2010", theory.Chord{}, nil},
	} {
		s, err := ParseShape(c.frets)
		if err != nil {
			t.Fatal(err)
		}
		v := Voicing{Shape: s, Chord: c.chord}
		if got := v.Fingers(); !slices.Equal(got, c.want) {
			t.Errorf("%s: %d, want %d", c.frets, got, c.want)
		}
	}
}
