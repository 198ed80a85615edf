package shapes

import (
	"slices"
	"testing"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/neck"
	"sparetone/drills/trial"
)

// Where no table says what players are taught, what is new is asked on the chords that come first on the neck.
func TestWithoutATableLowShapesAreAskedFirst(t *testing.T) {
	for _, row := range []struct{ tuning, target string }{
		{"banjo", "major"}, {"banjo", "minor"}, {"cavaquinho", "major"}, {"charango", "major"}, {"charango", "minor"},
		{"plectrum-banjo", "major"}, {"bass", "minor"}, {"guitar-dadgad", "major"},
	} {
		on := trial.Instrument(t, row.tuning)
		first := on.FirstShapes(chord.Kind(row.target))
		for _, d := range []drills.Drill{Name{}, Tones{}, Build{}} {
			for seed := range uint64(12) {
				q, err := d.Ask(drills.Request{Target: row.target, On: on, InPlay: []string{"major", "minor"}, First: true, Rand: drills.QuestionRand(d.About().ID, row.target, seed)})
				if err != nil {
					t.Fatal(err)
				}
				is := q.Solution().Shapes[0].Voicing
				if !slices.ContainsFunc(first, func(h neck.Held) bool { return h.Chord.Root.Same(is.Chord.Root) }) {
					t.Errorf("%s on %s asks %s first", d.About().ID, row.tuning, is.Chord)
				}
			}
		}
	}
}
