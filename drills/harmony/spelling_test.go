package harmony

import (
	"slices"
	"testing"

	"sparetone/drills/chord"
	"sparetone/theory"
	"sparetone/theory/say"
)

// A note that a chord has not is said to be none of its.
func TestForeignNotesAreTold(t *testing.T) {
	g := theory.NewChord(chord.MustNotes("G")[0], chord.Kind("major"))
	if lines := spelling(g, chord.MustNotes("C E G B D")); !slices.ContainsFunc(lines, func(l say.Text) bool { return l.Screen() == "C is not in the chord G." }) {
		t.Errorf("%q", lines)
	}
}
