package catalogue

import (
	"slices"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/harmony"
	"sparetone/drills/shapes"
	"sparetone/drills/trial"
	"sparetone/progress"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// Whoever does not know may say so to any question: that is wrong, and nothing is mistaken for anything.
func TestNotKnown(t *testing.T) {
	for _, name := range []string{"ukulele", "guitar"} {
		on := trial.Instrument(t, name)
		for _, d := range All() {
			trial.AskAll(t, d, on, 2, func(q *drills.Question) {
				for _, text := range []string{drills.Unknown, "i don’t know", "Dont know.", "pass", "no idea"} {
					v, err := q.Mark(text)
					if err != nil || v.Result != progress.Wrong || v.Given.Screen() != drills.Unknown || !v.NotKnown || v.TakenFor != "" || len(v.Other) > 0 || len(v.Lines) == 0 {
						t.Errorf("%s/%s, %q: %+v, %v", q.Drill, q.Target, text, v, err)
					}
				}
			})
		}
	}
}

// A shape typed where choices have numbers is no number.
func TestShapesAreNoNumbers(t *testing.T) {
	on := trial.Ukulele(t)
	for _, d := range All() {
		trial.AskAll(t, d, on, 1, func(q *drills.Question) {
			if v, err := q.Mark("0002"); len(q.Choices) > 0 && err == nil {
				t.Errorf("%s/%s: 0002 is %q", q.Drill, q.Target, v.Given)
			}
		})
	}
}

// How many words an answer has, string by string, is said as the instrument has strings.
func TestTypingCountsStrings(t *testing.T) {
	for name, want := range map[string]string{"ukulele": "the g string first, such as 0 2 3 2, and", "guitar": "the low E string first, such as 0 2 3 2 0 1, and"} {
		q := trial.Ask(t, shapes.Build{}, "major", trial.Instrument(t, name), 1)
		if got := q.Typing(); !strings.Contains(got.Screen(), want) {
			t.Errorf("%s: %s", name, got)
		}
	}
}

// What stands as an example of how an answer is typed is not right. 0 2 3 2 would be: it is G on a ukulele, D on a baritone.
func TestExamplesOfTypingAreWrong(t *testing.T) {
	for name, root := range map[string]string{"ukulele": "G", "baritone": "D"} {
		on, would := trial.Instrument(t, name), 0
		for _, d := range []drills.Drill{shapes.Build{}, shapes.Swap{}, shapes.Tones{}} {
			trial.AskAll(t, d, on, 30, func(q *drills.Question) {
				_, example, _ := strings.Cut(q.Typing().Screen(), "such as ")
				example, _, _ = strings.Cut(example, ",")
				if got, err := q.Result(example); err == nil && got == progress.Right {
					t.Errorf("%s: %s, such as %s: %s", name, q.Text(), example, got)
				}
				if q.Drill == "build" && q.Answer.Symbol() == root {
					would++
				}
			})
		}
		if would == 0 {
			t.Errorf("%s: %s is never to be built", name, root)
		}
	}
}

// A note that rubs is shown beside the note that it rubs against.
func TestRubbingSounds(t *testing.T) {
	shown := 0
	for _, name := range []string{"ukulele", "guitar"} {
		trial.AskAll(t, harmony.KeyAdd{}, trial.Instrument(t, name), 30, func(q *drills.Question) {
			v := q.Solution()
			if !strings.HasPrefix(q.Target, "clash-with-") || len(v.Shapes) < 2 {
				return
			}
			shown++
			if with := v.Shapes[1].Voicing; len(with.Missing()) > 0 {
				t.Errorf("%s, %s is %s without %v", name, q.Prompt, with.Shape, with.Missing())
			}
		})
	}
	if shown < 20 {
		t.Errorf("%d were shown", shown)
	}
}

// A note of the key under another letter is said to be right only if the pitch is.
func TestLettersOfAKey(t *testing.T) {
	right, other := 0, 0
	trial.AskAll(t, harmony.KeyAdd{}, trial.Ukulele(t), 60, func(q *drills.Question) {
		typed := []string{}
		for _, c := range q.Choices {
			typed = append(typed, c.Typed)
		}
		for _, n := range chord.MustNotes("C# Db D# Eb F# Gb G# Ab A# Bb") {
			if !slices.Contains(typed, n.ASCII()) {
				typed = append(typed, n.ASCII())
			}
		}
		for _, text := range typed {
			v, err := q.Mark(text)
			if err != nil {
				t.Fatal(err)
			}
			line := v.Lines[0].Screen()
			sounds := slices.ContainsFunc(q.Accepts, func(s string) bool {
				n, err := theory.ParseNote(s)
				return err == nil && n.Same(chord.MustNotes(text)[0])
			})
			switch {
			case strings.Contains(line, "the right pitch"):
				right++
				if !sounds {
					t.Errorf("%s %s: %q", q.Prompt, text, line)
				}
			case strings.Contains(line, " is written "):
				other++
				if sounds {
					t.Errorf("%s %s: %q", q.Prompt, text, line)
				}
			}
		}
	})
	if right == 0 || other == 0 {
		t.Errorf("under another letter %d notes were right and %d not", right, other)
	}
}

// A shape that has little of what was asked for is answered with the easiest, and one that nearly has it is mended.
func TestModelsOfBuild(t *testing.T) {
	on := trial.Ukulele(t)
	q := trial.Ask(t, shapes.Build{}, "major", on, 1)
	for seed := uint64(1); q.Prompt.Screen() != "Build A."; seed++ {
		q = trial.Ask(t, shapes.Build{}, "major", on, seed)
	}
	for said, want := range map[string]string{"0003": "2100", "2101": "2100", "2105": "2104"} {
		if v, err := q.Mark(said); err != nil || v.Expected.Screen() != want {
			t.Errorf("for A, %s is answered with %s, %v; want %s", said, v.Expected, err, want)
		}
	}
}

// Any one string moved that makes the chord with all its notes is right, also further than a hand spans; and nothing
// else is.
func TestWideWays(t *testing.T) {
	on, wide := trial.Ukulele(t), 0
	trial.AskAll(t, shapes.Swap{}, on, 6, func(q *drills.Question) {
		from := q.Shown.Shape
		wanted := q.Solution().Shapes[1].Voicing.Chord
		for i := range from {
			for f := range 13 {
				s := slices.Clone(from)
				s[i] = f
				v, err := q.Mark(s.String())
				if f == from[i] || err != nil {
					continue
				}
				after, err := fret.Voice(on.Tuning, s, wanted)
				if err != nil {
					t.Fatal(err)
				}
				whole := len(after.Missing()) == 0 && !slices.ContainsFunc(after.Strings, func(s fret.StringTone) bool { return s.Foreign })
				if whole != (v.Result == progress.Right) {
					t.Errorf("%s %s to %s: %v", q.Prompt, from, s, v.Result)
				}
				if whole && !slices.Contains(q.Accepts, spaced(s)) {
					wide++
				}
			}
		}
	})
	if wide == 0 {
		t.Error("no way was wide")
	}
}

// spaced writes a shape with spaces between its frets.
func spaced(s fret.Shape) string {
	out := make([]string, len(s))
	for i, f := range s {
		out[i] = fret.Shape{f}.String()
	}
	return strings.Join(out, " ")
}
