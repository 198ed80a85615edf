package drills

import "testing"

// The end of a practice names the chord that shapes and notes were of, also where another shape was answered.
func TestDoneNamesTheChord(t *testing.T) {
	on := ukulele(t)
	for _, d := range []Drill{build{}, swap{}, shapeTones{}, spell{}} {
		someQuestions(t, d, on, 3, func(q *Question) {
			if q.Form == Choose {
				return
			}
			want := q.Solution().Shapes[len(q.Solution().Shapes)-1].Voicing.Chord.String()
			for _, text := range []string{q.Expected().Typed, "2 2 1 0", "R R R R", "C", Unknown} {
				if v, err := q.Mark(text); err == nil && q.ChordOf(v).Screen() != want {
					t.Errorf("%s %q: %s, want %s", q.Prompt, text, q.ChordOf(v), want)
				}
			}
		})
	}
}
