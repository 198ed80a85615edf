package drills

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"sparetone/theory/say"
)

// Strings are called as the picture calls them, and no other drill than those about a doubled note speaks of sparing
// one. Two sharps are an x.
func TestSentencesCallThingsByOneName(t *testing.T) {
	numbered := regexp.MustCompile(`[Ss]trings? \d`)
	spares := map[string]bool{"doubled": true, "swap": true, "added-ear": true}
	for _, name := range []string{"ukulele", "guitar", "mandolin"} {
		eachQuestion(t, instrument(t, name), studyOf(30, 500), func(t *testing.T, r Request, q *Question) {
			said := []say.Text{q.Prompt, q.Typing()}
			answers := []string{q.Expected().Typed, Unknown}
			for _, c := range q.Choices {
				said, answers = append(said, c.Said), append(answers, c.Typed)
			}
			switch q.Form {
			case Tones:
				answers = append(answers, strings.Repeat("b3 ", len(q.Shown.Pitches())))
			case Frets:
				answers = append(answers, strings.Repeat("1 ", len(r.On.Tuning.Strings)))
			case Notes:
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

// A string is known by its number and by what it is called; a letter that two strings have is not enough.
func TestStringsAreReadAsTheyAreCalled(t *testing.T) {
	for _, row := range []struct {
		on, text string
		want     []int
	}{
		{"ukulele", "g and E", []int{4, 2}},
		{"ukulele", "4 2", []int{4, 2}},
		{"ukulele", "the g string", []int{4}},
		{"guitar", "low E and D", []int{6, 4}},
		{"guitar", "the high E string", []int{1}},
		{"guitar", "E and D", nil},
		{"ukulele", "5", nil},
		{"ukulele", "H", nil},
	} {
		got, ok := stringNumbers(instrument(t, row.on).Tuning, row.text)
		if ok != (row.want != nil) || ok && !slices.Equal(got, row.want) {
			t.Errorf("%s, %q: %v, %v, want %v", row.on, row.text, got, ok, row.want)
		}
	}
}

// printed is what sentences look like on the screen.
func printed(texts []say.Text) []string {
	out := make([]string, len(texts))
	for i, t := range texts {
		out[i] = t.Screen()
	}
	return out
}
