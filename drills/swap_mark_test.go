package drills

import (
	"slices"
	"strings"
	"testing"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Swaps mark a note just as key-add speaks of it: every triad of every plain key, every shape of it that questions are
// made from. Where the third has gone nothing rubs against it any more.
func TestSwapsAreMarkedAsInKeyAdd(t *testing.T) {
	on, compared := ukulele(t), map[string]int{}
	for _, a := range keyChords {
		for _, p := range layings(keyTask{keyChord: a}, mostSigns) {
			sit, rubbing := besides(p.scale, p.chord)
			for _, h := range on.shapes(p.chord) {
				for _, s := range fret.Swaps(on.Tuning, h.shape, p.chord, &p.key) {
					s.Lowest = false // of which key-add does not speak
					note, marks := p.chord.Root.Up(s.Adds), SwapMarks(s, &p.key).Screen()
					says, third := "", !s.Spare
					switch {
					case slices.Contains(sit, note):
						says = "sits"
					case slices.Contains(rubbing, note) && !third:
						says = "rubs"
					case p.raisedByAnotherLetter(note):
						says = "spelled otherwise"
					case p.key.Standing(note) == theory.Outside:
						says = "outside"
					case slices.Contains(p.raised(), note):
						says = "raised"
					default:
						continue
					}
					compared[says]++
					want := map[string]bool{
						"sits": marks == "", "rubs": strings.HasPrefix(marks, "rubs against "),
						"outside":           strings.HasSuffix(marks, "not in "+p.key.String()),
						"spelled otherwise": strings.Contains(marks, note.String()+", which sounds "),
						"raised":            strings.Contains(marks, "the raised s") && strings.HasSuffix(marks, " of "+p.key.String()),
					}[says]
					if !want || s.InKey() != (says != "outside") {
						t.Errorf("%s on %s in %s %s, and %s is marked %q", note, p.chord, p.named, says, s.To, marks)
					}
				}
			}
		}
	}
	for _, says := range []string{"sits", "rubs", "outside", "raised", "spelled otherwise"} {
		if compared[says] < 20 {
			t.Errorf("%d notes compared that %s", compared[says], says)
		}
	}
}

// raisedByAnotherLetter reports whether a note sounds the raised sixth or seventh and is not written so: A♭ in A minor.
func (p laid) raisedByAnotherLetter(n theory.Note) bool {
	return p.key.Standing(n) == theory.Outside && slices.ContainsFunc(p.raised(), n.Same)
}

// What the bench says of a swap.
func TestGripMarks(t *testing.T) {
	for _, row := range []struct{ key, chord, becomes, says string }{
		{"F", "F", "Fadd4", "4 for the doubled third; rubs against A"},
		{"", "F", "Fadd4", "4 for the doubled third; rubs against A"},
		{"C", "C", "Cadd9", "9 for the doubled root; the 9 is the lowest note"},
		{"C", "C", "C7", "♭7 for the doubled root; not in C major"},
		{"", "C", "C7", "♭7 for the doubled root"},
		{"Am", "Am", "Am(maj7)", "7 for the doubled root; the raised seventh of A minor"},
		{"G", "F", "Fadd4", "4 for the doubled third; rubs against A, not in G major"},
		{"C", "C", "Csus4", "4 for 3: the third is gone"},
	} {
		g := gripped(t, "ukulele", row.key, row.chord)
		n := slices.IndexFunc(g.Swaps, func(s fret.Swap) bool { return s.Chord.Symbol() == row.becomes })
		if n < 0 {
			t.Errorf("%s does not become %s", row.chord, row.becomes)
		} else if got := g.SwapAdds(n).Screen(); got != row.says {
			t.Errorf("in %q, %s to %s: %q, want %q", row.key, row.chord, row.becomes, got, row.says)
		}
	}
}

// What a player reads of things added, and of notes that a chord has not.
func TestAddedInWords(t *testing.T) {
	for want, got := range map[string]string{
		"the ninth added to a major chord":                  sayJoins(additions[0]).Screen(),
		"the fourth in place of the third of a major chord": sayJoins(additions[6]).Screen(),
		"the second in place of the third of a major chord": sayJoins(additions[5]).Screen(),
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	g := theory.NewChord(notes("G")[0], mustKind("major"))
	if lines := spelling(g, notes("C E G B D")); !slices.ContainsFunc(lines, func(l say.Text) bool { return l.Screen() == "C is not in the chord G." }) {
		t.Errorf("%q", lines)
	}
	for kind, want := range map[string]string{
		"major": "G", "minor": "Gm", "augmented": "Gaug", "diminished": "Gdim", "dominant": "G7", "major-sixth": "G6",
		"minor-seventh": "Gm7, minor seventh", "suspended-fourth": "Gsus4, suspended fourth", "added-ninth": "Gadd9, added ninth",
	} {
		if got := sayTitled(theory.NewChord(g.Root, mustKind(kind))).Screen(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
