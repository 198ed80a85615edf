package catalogue

import (
	"regexp"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/trial"
	"sparetone/theory/say"
)

// Strings are called as the picture calls them, and no other drill than those about a doubled note speaks of sparing
// one. Two sharps are an x.
func TestSentencesCallThingsByOneName(t *testing.T) {
	numbered := regexp.MustCompile(`[Ss]trings? \d`)
	spares := map[string]bool{"doubled": true, "swap": true, "added-ear": true}
	for _, name := range []string{"ukulele", "guitar", "mandolin"} {
		eachQuestion(t, trial.Instrument(t, name), trial.StudyOf(30, 500), func(t *testing.T, r drills.Request, q *drills.Question) {
			said := []say.Text{q.Prompt, q.Typing()}
			answers := []string{q.Expected().Typed, drills.Unknown}
			for _, c := range q.Choices {
				said, answers = append(said, c.Said), append(answers, c.Typed)
			}
			switch q.Form {
			case drills.Tones:
				answers = append(answers, strings.Repeat("b3 ", len(q.Shown.Pitches())))
			case drills.Frets:
				answers = append(answers, strings.Repeat("1 ", len(r.On.Tuning.Strings)))
			case drills.Notes:
				answers = append(answers, "C E G# Bb")
			}
			for _, text := range answers {
				v, err := q.Mark(text)
				if err != nil {
					t.Fatalf("%s: %q: %v", q.Prompt, text, err)
				}
				said = append(said, v.Given, v.Expected)
				said = append(said, v.Lines...)
				for _, s := range v.Shapes {
					said = append(said, s.Caption)
				}
				for _, s := range v.Asked {
					said = append(said, s.Label)
				}
				for _, s := range v.Other {
					said = append(said, s.Label)
				}
			}
			for _, text := range said {
				line := text.Screen()
				switch {
				case numbered.MatchString(line):
					t.Errorf("%s: %q calls a string by its number", q.Prompt, line)
				case strings.Contains(line, "♯♯"):
					t.Errorf("%s: %q writes two sharps as two", q.Prompt, line)
				case strings.Contains(line, "spared") && !spares[q.Drill]:
					t.Errorf("%s: %q is about another thing than was asked", q.Prompt, line)
				}
			}
		})
	}
}

// Nothing is said twice of one answer, right or wrong.
func TestNothingIsSaidTwice(t *testing.T) {
	on := trial.Ukulele(t)
	for _, d := range All() {
		trial.AskAll(t, d, on, 4, func(q *drills.Question) {
			for _, text := range []string{q.Expected().Typed, drills.Unknown} {
				v, err := q.Mark(text)
				if err != nil {
					t.Fatal(err)
				}
				said := map[string]bool{}
				for _, line := range v.Lines {
					if said[line.Screen()] {
						t.Errorf("%s: %q is said twice", q.Text(), line.Screen())
					}
					said[line.Screen()] = true
				}
			}
		})
	}
}
