package harmony

import (
	"slices"
	"testing"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/trial"
	"sparetone/synth"
)

// A row of chords that is new stands in a key whose own chord is one of those that players meet first, or, where these are few, in a key
// with two signs at the most; later in any.
func TestRowsBeginInFirstKeys(t *testing.T) {
	for _, name := range []string{"ukulele", "guitar"} {
		on := trial.Instrument(t, name)
		for _, inPlay := range [][]string{{"1-5-1", "1-4-1", "1-4-5", "1-5-4"}, {"minor-1-4-5", "minor-1-7-6", "minor-1-5-1"}, {"with-a-ninth", "with-a-sixth", "with-a-seventh"}} {
			mode := "major"
			if inPlay[0] == "minor-1-4-5" {
				mode = "minor"
			}
			first := on.FirstShapes(chord.Kind(mode))
			for _, reach := range []float64{0, 1} {
				early := []int{}
				for _, h := range first {
					early = append(early, h.Chord.Root.Class())
				}
				if mode == "minor" { // of which few are met first
					early = append(early, 9, 4, 2, 11, 7)
				}
				keys := map[int]bool{}
				count, odd := trial.StudyOf(60, 600), 0
				for seed := range uint64(count) {
					target := inPlay[seed%uint64(len(inPlay))]
					r := drills.Request{Target: target, On: on, InPlay: inPlay, Reach: reach, Clarity: drills.RowRungs[0].Clarity, Rand: drills.QuestionRand("progression-ear", target, seed)}
					q, err := ProgressionEar{}.Ask(r)
					if err != nil {
						t.Fatal(err)
					}
					key := q.Sounds[0].Notes[slices.IndexFunc(q.Sounds[0].Notes, func(n synth.Sounding) bool { return n.String == q.Sounds[0].Root })].Pitch.Class()
					if keys[key] = true; !slices.Contains(early, key) {
						odd++
					}
				}
				t.Logf("%s, %v, reach %v: %d keys, %d of %d questions in others than the first", name, inPlay, reach, len(keys), odd, count)
				if reach == 0 && (odd > 0 || len(keys) < 3) || reach == 1 && len(keys) < 9 {
					t.Errorf("%s, %v, reach %v: %d keys, %d of %d questions in others than the first", name, inPlay, reach, len(keys), odd, count)
				}
			}
		}
	}
}
