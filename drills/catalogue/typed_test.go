package catalogue

import (
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/harmony"
	"sparetone/drills/neck"
	"sparetone/drills/trial"
	"sparetone/progress"
)

// What people type is understood in any usual form.
func TestAnswersInManyWords(t *testing.T) {
	on := trial.Ukulele(t)
	for _, row := range []struct {
		drill, target string
		right, wrong  []string
	}{
		{"interval-ear", "m3", []string{"m3", "minor third", "a minor third", "Minor Third", "min 3rd", "b3", "♭3", "A2", "min3", "m 3rd", "min. third", "Minor 3", "flat third", "m3."}, []string{"M3", "maj 3rd", "Maj3", "tritone", "fifth", "#4", "+4", "A4", "flat five", "a fourth", "the octave", "double octave"}},
		{"interval-ear", "M2", []string{"a whole step", "whole tone", "tone", "M2", "Major second!"}, []string{"semitone", "half step", "m2"}},
		{"interval-ear", "P5", []string{"P5", "perfect fifth", "fifth", "5th", "perf 5th"}, []string{"octave", "fourth", "diminished fifth"}},
		{"interval-ear", "A4", []string{"tritone", "d5", "#4", "b5", "augmented fourth", "diminished fifth"}, []string{"P4", "P5"}},
		{"chord-ear", "minor-seventh", []string{"m7", "min7", "-7", "minor seventh", "a minor seventh chord", "6", "minor 7th", "min. 7", "6th"}, []string{"7", "maj7", "Δ", "half-diminished", "half-dim", "m", "sus", "suspended 4th", "dominant 7th", "major seventh", "M7", "diminished triad"}},
		{"chord-ear", "minor", []string{"m", "minor", "-"}, []string{"6", "major sixth", "major"}},
		{"chord-ear", "diminished", []string{"dim", "diminished"}, []string{"m6", "minor sixth"}},
		{"chord-ear", "suspended-fourth", []string{"sus4", "sus", "suspended fourth", "sus2"}, []string{"major", "add4"}},
		{"added-ear", "added-ninth", []string{"9th", "9", "the ninth", "ninth", "add9", "added ninth", "Add9", "the 9", "added 9th"}, []string{"6th", "6", "b7", "♭7", "flat 7", "m7", "maj7", "major 7th", "sus4", "suspended 4th", "the fourth", "add4"}},
		{"added-ear", "dominant", []string{"b7", "♭7", "flat 7", "flat seventh", "minor seventh", "the minor 7th", "m7"}, []string{"maj7", "major seventh", "6th", "the ninth"}},
		{"doubled", "fifth", []string{"fifth", "the fifth", "5", "5th", "the 5th"}, []string{"root", "R", "third", "3rd"}},
	} {
		d, _ := ByID(row.drill)
		for seed := range uint64(5) {
			q := trial.Ask(t, d, row.target, on, seed)
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
	on := trial.Ukulele(t)
	for _, row := range []struct {
		drill, target string
		answer        func(q *drills.Question) string
		want          progress.Result
	}{
		{"shape-tones", "major", func(q *drills.Question) string { return "R R R R" }, progress.Partly},
		{"shape-tones", "major", func(q *drills.Question) string { return "9 9 9 9" }, progress.Wrong},
		{"spell", "dominant", func(q *drills.Question) string { return q.Expected().Typed[:1] + " X" }, 0},
		{"spell", "major", func(q *drills.Question) string { return q.Expected().Typed + " D## " }, progress.Partly},
		{"build", "major", func(q *drills.Question) string { return "0000" }, progress.Wrong},
		{"build", "major", func(q *drills.Question) string { return "000" }, 0},
		{"build", "major", func(q *drills.Question) string { return "0 0 0 99" }, 0},
		{"swap", "added-ninth", func(q *drills.Question) string { return q.Shown.Shape.String() }, progress.Wrong},
	} {
		d, _ := ByID(row.drill)
		for seed := range uint64(5) {
			q := trial.Ask(t, d, row.target, on, seed)
			text := row.answer(q)
			if v, err := q.Mark(text); v.Result != row.want || (err == nil) == (row.want == 0) {
				t.Errorf("%s %s %q: %q is marked %v, %v; want %v", row.drill, row.target, q.Prompt, text, v.Result, err, row.want)
			}
		}
	}
}

// The right pitch with the wrong letter is called that.
func TestSpellingIsNamed(t *testing.T) {
	q := trial.Ask(t, harmony.Spell{}, "dominant", trial.Ukulele(t), 0)
	for seed := uint64(0); q.Expected().Typed != "C E G Bb"; seed++ {
		q = trial.Ask(t, harmony.Spell{}, "dominant", trial.Ukulele(t), seed)
	}
	v, err := q.Mark("C E G A#")
	want := "A♯ is the right pitch with the wrong letter: the minor seventh of C is written with the letter B, so B♭."
	if err != nil || v.Result != progress.Partly || len(v.Lines) < 2 || v.Lines[1].Screen() != want {
		t.Errorf("%v, %v: %q", v.Result, err, v.Lines)
	}
}

// What could be two things, or nearly is one, is asked about and not marked wrong.
func TestDoubtIsAskedAbout(t *testing.T) {
	on := trial.Ukulele(t)
	for _, row := range []struct{ drill, target, text, says string }{
		{"interval-ear", "m3", "third", `"third" is not an answer here`},
		{"interval-ear", "m3", "-3", `"-3" is not an answer here`},
		{"interval-ear", "m3", "+x", `"+x" is not an answer here`},
		{"chord-ear", "minor", "purple", `"purple" is not an answer here`},
		{"shape-name", "minor", "Do", "Do could be C or Ddim: write one of these"},
		{"shape-tones", "major", "root third fifth root", "which third: minor or major, b3 or 3"},
		{"shape-tones", "major", "R 3", `"R 3" has too few tones: 4 strings sound`},
		{"spell", "major", "Es G B", "B beside Es could be B flat or B natural: write Bb, or H"},
		{"build", "major", "0-0--0-3", `"0-0--0-3" is not an answer here`},
	} {
		d, _ := ByID(row.drill)
		q := trial.Ask(t, d, row.target, on, 3)
		if v, err := q.Mark(row.text); err == nil || !strings.Contains(err.Error(), row.says) || !strings.Contains(err.Error(), "; type ") {
			t.Errorf("%s: %q is marked %v, %v; want %q and what would be understood", row.drill, row.text, v.Result, err, row.says)
		}
	}
}

// Whatever an answer is called on the screen or aloud may be typed, in any case.
func TestAnswersAsTheyAreCalled(t *testing.T) {
	for _, on := range []*neck.Instrument{trial.Ukulele(t), trial.Instrument(t, "guitar")} {
		for _, d := range All() {
			for _, target := range d.Targets(on) {
				q := trial.Ask(t, d, target.ID, on, 7)
				for _, c := range q.Choices {
					for _, text := range []string{c.Said.Screen(), c.Said.Aloud(), strings.ToUpper(c.Said.Aloud()), c.Typed} {
						if got, err := q.Result(text); err != nil || (got == progress.Right) != (c.ID == q.Expected().ID) {
							t.Errorf("%s %s: %q is understood as %v, %v; it is %s", d.About().ID, target.ID, text, got, err, c.ID)
						}
					}
				}
			}
		}
	}
}
