package wording

import (
	"testing"

	"sparetone/drills/chord"
	"sparetone/theory"
)

// What a player reads of things added, and of chords by their names.
func TestAddedInWords(t *testing.T) {
	for want, got := range map[string]string{
		"the ninth added to a major chord":                  Joins(chord.Additions[0]).Screen(),
		"the fourth in place of the third of a major chord": Joins(chord.Additions[6]).Screen(),
		"the second in place of the third of a major chord": Joins(chord.Additions[5]).Screen(),
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	g := chord.MustNotes("G")[0]
	for kind, want := range map[string]string{
		"major": "G", "minor": "Gm", "augmented": "Gaug", "diminished": "Gdim", "dominant": "G7", "major-sixth": "G6",
		"minor-seventh": "Gm7, minor seventh", "suspended-fourth": "Gsus4, suspended fourth", "added-ninth": "Gadd9, added ninth",
	} {
		if got := Titled(theory.NewChord(g, chord.Kind(kind))).Screen(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
