package harmony

import (
	"slices"
	"testing"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/trial"
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

// The first question about the notes of a chord is of one that has a shape, so that it can be seen and heard before: on a mandolin not
// every diminished chord has.
func TestFirstSpelledChordHasAShape(t *testing.T) {
	on := trial.Instrument(t, "mandolin")
	for seed := range uint64(40) {
		q, err := Spell{}.Ask(drills.Request{Target: "diminished", On: on, First: true, Rand: drills.QuestionRand("spell", "diminished", seed)})
		if err != nil {
			t.Fatal(err)
		}
		if len(q.Solution().Shapes) == 0 {
			t.Errorf("%s has no shape", q.Prompt)
		}
	}
}
