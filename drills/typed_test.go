package drills

import (
	"testing"

	"sparetone/progress"
)

// What people type is understood in any usual form.
func TestAnswersInManyWords(t *testing.T) {
	on := ukulele(t)
	for _, row := range []struct {
		drill, target string
		right, wrong  []string
	}{
		{"interval-ear", "m3", []string{"m3", "minor third", "a minor third", "Minor Third", "min 3rd", "b3", "♭3", "A2"}, []string{"M3", "maj 3rd", "tritone", "fifth", "#4"}},
		{"interval-ear", "P5", []string{"P5", "perfect fifth", "fifth", "5th", "perf 5th"}, []string{"octave", "fourth", "diminished fifth"}},
		{"interval-ear", "A4", []string{"tritone", "d5", "#4", "b5", "augmented fourth", "diminished fifth"}, []string{"P4", "P5"}},
		{"chord-ear", "minor-seventh", []string{"m7", "min7", "-7", "minor seventh", "a minor seventh chord", "6"}, []string{"7", "maj7", "Δ", "half-diminished", "m", "sus"}},
		{"chord-ear", "minor", []string{"m", "minor", "-"}, []string{"6", "major sixth", "major"}},
		{"chord-ear", "diminished", []string{"dim", "diminished"}, []string{"m6", "minor sixth"}},
		{"chord-ear", "suspended-fourth", []string{"sus4", "sus", "suspended fourth", "sus2"}, []string{"major", "add4"}},
		{"added-ear", "added-ninth", []string{"9th", "9", "the ninth", "ninth", "add9", "added ninth", "Add9"}, []string{"6th", "6", "b7", "♭7", "maj7", "sus4", "the fourth", "add4"}},
		{"doubled", "fifth", []string{"fifth", "the fifth", "5"}, []string{"root", "R", "third"}},
	} {
		d, _ := ByID(row.drill)
		for seed := range uint64(5) {
			q := ask(t, d, row.target, on, seed)
			for want, texts := range map[progress.Result][]string{progress.Right: row.right, progress.Wrong: row.wrong} {
				for _, text := range texts {
					if v, err := q.Mark(text); err != nil || v.Result != want {
						t.Errorf("%s %s seed %d: %q is marked %v, %v; want %v", row.drill, row.target, seed, text, v.Result, err, want)
					}
				}
			}
		}
	}
}

// Answers that are put together are marked part by part.
func TestPartsOfAnswers(t *testing.T) {
	on := ukulele(t)
	for _, row := range []struct {
		drill, target string
		answer        func(q *Question) string
		want          progress.Result
	}{
		{"shape-tones", "major", func(q *Question) string { return "R R R R" }, progress.Partly},
		{"shape-tones", "major", func(q *Question) string { return "9 9 9 9" }, progress.Wrong},
		{"spell", "dominant", func(q *Question) string { return q.Expected().Typed[:1] + " X" }, 0},
		{"spell", "major", func(q *Question) string { return q.Expected().Typed + " D## " }, progress.Partly},
		{"build", "major", func(q *Question) string { return "0000" }, progress.Wrong},
		{"build", "major", func(q *Question) string { return "000" }, 0},
		{"build", "major", func(q *Question) string { return "0 0 0 99" }, 0},
		{"swap", "added-ninth", func(q *Question) string { return q.Shown.Shape.String() }, progress.Wrong},
	} {
		d, _ := ByID(row.drill)
		for seed := range uint64(5) {
			q := ask(t, d, row.target, on, seed)
			text := row.answer(q)
			if v, err := q.Mark(text); v.Result != row.want || (err == nil) == (row.want == 0) {
				t.Errorf("%s %s %q: %q is marked %v, %v; want %v", row.drill, row.target, q.Prompt, text, v.Result, err, row.want)
			}
		}
	}
}

// The right key under the wrong letter is called that.
func TestSpellingIsNamed(t *testing.T) {
	q := ask(t, spell{}, "dominant", ukulele(t), 0)
	for seed := uint64(0); q.Expected().Typed != "C E G Bb"; seed++ {
		q = ask(t, spell{}, "dominant", ukulele(t), seed)
	}
	v, err := q.Mark("C E G A#")
	want := "A♯ is the right key under the wrong letter: the minor seventh of C is some kind of B, so B♭."
	if err != nil || v.Result != progress.Partly || len(v.Lines) < 2 || v.Lines[1] != want {
		t.Errorf("%v, %v: %q", v.Result, err, v.Lines)
	}
}
