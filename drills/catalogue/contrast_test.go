package catalogue

import (
	"slices"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/ear"
	"sparetone/drills/trial"
	"sparetone/drills/wording"
	"sparetone/progress"
	"sparetone/synth"
)

// answersTo are answers to a question, as somebody would type them: the right one, each choice, and where there are none some that
// are mostly wrong.
func answersTo(q *drills.Question) []string {
	out := []string{q.Expected().Typed, drills.Unknown}
	for _, c := range q.Choices {
		out = append(out, c.Typed)
	}
	switch q.Form {
	case drills.Tones:
		out = append(out, strings.TrimSpace(strings.Repeat("R ", len(q.Shown.Pitches()))), strings.TrimSpace(strings.Repeat("b3 ", len(q.Shown.Pitches()))))
	case drills.Frets:
		n := len(q.Tuning.Strings)
		out = append(out, strings.Repeat("0 ", n), strings.Repeat("0 ", n-1)+"2", strings.Repeat("x ", n-2)+"2 3")
	case drills.Notes:
		out = append(out, "C E G A#", "Db F Ab")
	}
	return out
}

// After a mistake there is something to hear in turn: what was right and what was answered, which differ. Whatever is right or not
// known has no such contrast.
func TestEveryMistakeIsHeardInTurn(t *testing.T) {
	for _, name := range []string{"ukulele", "guitar", "banjo"} {
		on := trial.Instrument(t, name)
		for _, d := range All() {
			mistakes, silent := 0, 0
			trial.AskAll(t, d, on, 2, func(q *drills.Question) {
				for _, text := range answersTo(q) {
					v, err := q.Mark(text)
					if err != nil {
						t.Fatalf("%s: %q: %v", q.Text(), text, err)
					}
					if v.Result == progress.Right || v.NotKnown {
						if v.Contrast.Any() {
							t.Errorf("%s, answered %q: nothing is to be told apart", q.Text(), text)
						}
						continue
					}
					mistakes++
					if !v.Contrast.Any() {
						silent++
						continue
					}
					heard := func(sounds []drills.Sound) (out [][]synth.Sounding) {
						for _, s := range sounds {
							out = append(out, s.Plucked())
							if v.Called(s).IsZero() || len(s.Notes) == 0 || len(s.Score.Plucks) == 0 {
								t.Errorf("%s, answered %q: a sound without a name, or without notes: %+v", q.Text(), text, s)
							}
							for _, p := range s.Score.Plucks {
								if !slices.ContainsFunc(s.Notes, func(n synth.Sounding) bool { return n.String == p.String && n.Pitch == p.Pitch }) {
									t.Errorf("%s, answered %q: %v is plucked, which is none of %v", q.Text(), text, p, s.Notes)
								}
							}
						}
						return out
					}
					right, given := heard(v.Contrast.Right), heard(v.Contrast.Given)
					if slices.EqualFunc(right, given, slices.Equal[[]synth.Sounding]) && !sameInOrder(v) {
						t.Errorf("%s, answered %q: both sound %v", q.Text(), text, right)
					}
					if len(right) == 1 && len(given) == 1 && v.Called(v.Contrast.Right[0]).Equal(v.Called(v.Contrast.Given[0])) {
						t.Errorf("%s, answered %q: both are called %q", q.Text(), text, v.Called(v.Contrast.Right[0]))
					}
				}
			})
			// Nothing tells them apart by ear where the right notes were given under another letter, which comes seldom here.
			if most := map[string]int{"spell": mistakes / 20}[d.About().ID]; silent > most {
				t.Errorf("%s, %s: of %d mistakes %d are not heard in turn, at most %d may", name, d.About().ID, mistakes, silent, most)
			}
		}
	}
}

// sameInOrder reports whether the sides of a contrast are the same notes played otherwise: the note that was heard, twice.
func sameInOrder(v drills.Verdict) bool {
	return len(v.Contrast.Right[0].Score.Plucks) != len(v.Contrast.Given[0].Score.Plucks)
}

// The strings that differ are those on which two shapes are stopped elsewhere.
func TestDifferingStrings(t *testing.T) {
	q := trial.Ask(t, ear.Chord{}, "dominant", trial.Ukulele(t), 1)
	for _, c := range q.Choices {
		v, err := q.Mark(c.Typed)
		if err != nil || !v.Contrast.Any() {
			continue
		}
		a, b := v.Shapes[0].Voicing, v.Shapes[1].Voicing
		lit := drills.Differing(a, b)
		if len(lit) == 0 {
			t.Errorf("%s and %s do not differ", a.Shape, b.Shape)
		}
		for _, s := range a.Strings {
			if slices.Contains(lit, s.Number) != (wording.ToneOn(b, s.Number).Fret != s.Fret) {
				t.Errorf("%s and %s: string %d is lit: %v", a.Shape, b.Shape, s.Number, lit)
			}
		}
	}
}
