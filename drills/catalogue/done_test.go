package catalogue

import (
	"testing"

	"sparetone/drills"
	"sparetone/drills/harmony"
	"sparetone/drills/shapes"
	"sparetone/drills/trial"
)

// The end of a practice names the chord that shapes and notes were of, also where another shape was answered.
func TestDoneNamesTheChord(t *testing.T) {
	on := trial.Ukulele(t)
	for _, d := range []drills.Drill{shapes.Build{}, shapes.Swap{}, shapes.Tones{}, harmony.Spell{}} {
		trial.AskAll(t, d, on, 3, func(q *drills.Question) {
			if q.Form == drills.Choose {
				return
			}
			want := q.Solution().Shapes[len(q.Solution().Shapes)-1].Voicing.Chord.String()
			for _, text := range []string{q.Expected().Typed, "2 2 1 0", "R R R R", "C", drills.Unknown} {
				if v, err := q.Mark(text); err == nil && q.ChordOf(v).Screen() != want {
					t.Errorf("%s %q: %s, want %s", q.Prompt, text, q.ChordOf(v), want)
				}
			}
		})
	}
}
