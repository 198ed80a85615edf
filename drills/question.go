package drills

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"sparetone/progress"
	"sparetone/synth"
	"sparetone/theory/fret"
)

// Question is one thing asked: what is heard or seen, and the choices. A Drill makes it. It is
// answered in text, as a person would type it; a key or a click stands for a choice's text.
type Question struct {
	Drill, Target string
	Prompt        string        // one line
	Sounds        []Sound       // heard in turn; empty for a question to the eye alone
	Shown         *fret.Voicing // the shape to look at; nil if there is none
	Named         bool          // the shape's notes and intervals may be written under it
	Voice         *synth.Voice
	Choices       []Choice

	right   string                     // ID of the marked choice
	read    func(string) (given, bool) // understands an answer that is not one of the choices' texts
	explain func(given, *Verdict)      // fills in Lines, Shapes and Other
}

// Choice is one of the answers offered.
type Choice struct {
	ID     string // what the drill calls it
	Label  string // as it is shown
	Spoken string // as it is said aloud
	Typed  string // as a person would type it
}

// given is an answer that was understood.
type given struct {
	id    string // of a choice, or what else the drill calls it
	label string
	right bool
	note  string // a word on how it was put, such as its spelling
}

// Sound is one thing heard: the notes that sound, string by string, and how they are played.
type Sound struct {
	Label string // says which of several it is, and never what; empty if there is just one
	Notes []synth.Sounding
	Score synth.Score
}

// Expected returns the choice that is marked right.
func (q *Question) Expected() Choice {
	i := slices.IndexFunc(q.Choices, func(c Choice) bool { return c.ID == q.right })
	return q.Choices[i]
}

// Mark marks an answer. It understands a choice's text, its number counted from 1, and whatever else
// the drill knows to read. Of an answer that makes no sense it returns an error that says what would
// be understood: such an answer is asked again and never marked wrong.
func (q *Question) Mark(text string) (Verdict, error) {
	g, ok := q.understand(text)
	if !ok {
		return Verdict{}, q.misread(text)
	}
	v := Verdict{Result: progress.Wrong, Given: g.label, Expected: q.Expected().Label, Asked: q.Sounds}
	if g.right {
		v.Result = progress.Right
	} else {
		v.TakenFor = g.id
	}
	if g.note != "" {
		v.Lines = append(v.Lines, g.note)
	}
	q.explain(g, &v)
	return v, nil
}

// understand reads an answer.
func (q *Question) understand(text string) (given, bool) {
	text = strings.TrimSpace(text)
	for _, c := range q.Choices {
		if text == c.Typed || sameWords(text, c.Label) {
			return given{id: c.ID, label: c.Label, right: c.ID == q.right}, true
		}
	}
	if n, err := strconv.Atoi(text); err == nil && n >= 1 && n <= len(q.Choices) {
		c := q.Choices[n-1]
		return given{id: c.ID, label: c.Label, right: c.ID == q.right}, true
	}
	return q.read(text)
}

func (q *Question) misread(text string) error {
	labels := make([]string, len(q.Choices))
	for i, c := range q.Choices {
		labels[i] = c.Typed
	}
	return fmt.Errorf("%q is not an answer here; type a number from 1 to %d, or one of: %s",
		clean(text), len(q.Choices), strings.Join(labels, ", "))
}

// sameWords compares two labels as a listener would: case, hyphens and spacing do not count.
func sameWords(a, b string) bool { return words(a) == words(b) }

func words(s string) string {
	s = strings.NewReplacer("-", " ", "♭", "b", "♯", "#").Replace(strings.ToLower(s))
	return strings.TrimPrefix(strings.Join(strings.Fields(s), " "), "a ")
}

// clean strips control characters from what a person typed and shortens it to one line.
func clean(s string) string {
	s = strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || r >= 0x80 && r < 0xa0 || r == '\ufffd' {
			return -1
		}
		return r
	}, s)
	if r := []rune(s); len(r) > 32 {
		return string(r[:31]) + "…"
	}
	return s
}
