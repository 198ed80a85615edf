package harmony

import (
	"slices"
	"strings"
	"testing"

	"sparetone/drills/bench"
	"sparetone/drills/trial"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// Swaps mark a note just as key-add speaks of it: every triad of every plain key, every shape of it that questions are
// made from. Where the third has gone nothing rubs against it any more.
func TestSwapsAreMarkedAsInKeyAdd(t *testing.T) {
	on, compared := trial.Ukulele(t), map[string]int{}
	for _, a := range keyChords {
		for _, p := range chordsInKeys(keyTask{keyChord: a}, mostSigns) {
			sit, rubbing := besides(p.scale, p.chord)
			for _, h := range on.Shapes(p.chord) {
				for _, s := range fret.Swaps(on.Tuning, h.Shape, p.chord, &p.key) {
					s.Lowest = false // of which key-add does not speak
					note, marks := p.chord.Root.Up(s.Adds), bench.SwapMarks(s, &p.key).Screen()
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
func (p chordInKey) raisedByAnotherLetter(n theory.Note) bool {
	return p.key.Standing(n) == theory.Outside && slices.ContainsFunc(p.raised(), n.Same)
}
