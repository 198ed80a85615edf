package drills

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"sparetone/progress"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/say"
)

// Question is one thing asked: what is heard or seen, and how it may be answered. A Drill makes it. It is
// answered in text, as a person would type it; a key, a click or a finger on a neck stands for that text.
type Question struct {
	Drill, Target string
	Prompt        say.Text      // one line
	Form          Form          // how an interface may help to answer
	Sounds        []Sound       // heard in turn; empty for a question to the eye alone
	Among         bool          // of three sounds the second is asked about: the others stand around it
	Shown         *fret.Voicing // the shape to look at, or to start from; nil if there is none
	Named         bool          // the shape's notes and intervals may be written under it
	Voice         synth.Voice
	Choices       []Choice // for Choose
	Accepts       []string // what else is right, as a person would type it
	Subject       string   // tells what it is about, where nothing is heard or seen; else empty
	Within        say.Text // the key and chord that it is about; zero if it is about none

	// Instead is, where it is the first of its kind and nothing is heard, or where its answer is known by heart alone, what could have
	// been asked in its place, itself among it: all look alike, and each choice is right for one. They are shown before it, if they were
	// not yet. A question without choices of that sort has itself alone.
	Instead []*Question

	expected Choice
	Tuning   *fret.Tuning // whose strings are the answer; nil where they are not
	Answer   theory.Chord // whose notes or strings are the answer; zero where they are not
	Answers  Reader
}

// Form is how an answer is put together.
type Form int

// The forms. Whatever the form, the answer is one text.
const (
	Choose Form = iota // one of the choices
	Tones              // what each string is, in the tuning's order: 5 R 3 R
	Frets              // a fret for each string: 0003
	Notes              // notes: C E G Bb
)

// Expected returns the answer that is marked right; of several, the plainest.
func (q *Question) Expected() Choice { return q.expected }

// Expect sets the answer that is marked right.
func (q *Question) Expect(c Choice) { q.expected = c }

// BeforeFirst says that a question is shown before it is asked, if it is the first of its kind.
func (q *Question) BeforeFirst(r Request) *Question {
	if r.First && q.Instead == nil {
		q.Instead = []*Question{q}
	}
	return q
}

// KnownByHeart says that a question is shown before it is asked, if it is the first of its kind or about the shapes that players meet
// first: those nobody can work out who was not shown them.
func (q *Question) KnownByHeart(r Request) *Question {
	r.First = r.First || r.New()
	return q.BeforeFirst(r)
}

// Offer sets the choices and which of them is right.
func (q *Question) Offer(right string, choices ...Choice) {
	q.Choices = choices
	q.expected = choices[slices.IndexFunc(choices, func(c Choice) bool { return c.ID == right })]
}

// Mark marks an answer. It understands a choice's text, its number counted from 1, and whatever else
// the drill knows to read. Of an answer that makes no sense it returns an error that says what would
// be understood: such an answer is asked again and never marked wrong.
//
// That it is not known is an answer to any question: a wrong one, and nothing is taken for anything else.
func (q *Question) Mark(text string) (Verdict, error) {
	if SaysUnknown(text) {
		v := q.Solution()
		v.Result, v.Given, v.NotKnown = progress.Wrong, sayUnknown, true
		return v, nil
	}
	g, err := q.understand(text)
	if err != nil {
		return Verdict{}, err
	}
	return q.verdict(g), nil
}

// Result marks an answer without explaining it. Its errors are those of Mark.
func (q *Question) Result(text string) (progress.Result, error) {
	g, err := q.understand(text)
	return g.Result, err
}

// IsRight reports whether a text would be marked right.
func (q *Question) IsRight(text string) bool {
	g, err := q.parse(text)
	return err == nil && g.Right()
}

// verdict is what comes of an answer.
func (q *Question) verdict(g Given) Verdict {
	v := Verdict{Result: g.Result, Given: g.Said, Expected: q.expected.Said, Asked: slices.Clone(q.Sounds)}
	v.Say(g.Note)
	g.explain(&v)
	if !g.Note.IsZero() {
		v.Short = g.Note // how it was put is what somebody does not know who was right
	}
	return v
}

// ChordOf names the chord that a question which is answered string by string, or note by note, was about; zero if it is
// answered otherwise.
func (q *Question) ChordOf(v Verdict) say.Text {
	shapes := v.AskedShapes()
	if q.Form == Choose || len(shapes) == 0 {
		return say.Text{}
	}
	return say.Of("{}", say.Chord(shapes[len(shapes)-1].Voicing.Chord))
}

// Text is the question as one line, for the record: its sounds in turn, the notes of each in the order plucked.
func (q *Question) Text() string {
	var b strings.Builder
	b.WriteString(q.Prompt.Screen())
	if q.Shown != nil {
		fmt.Fprintf(&b, " %s", q.Shown.Shape)
	}
	for i, s := range q.Sounds {
		b.WriteString([]string{" ", " | "}[min(i, 1)])
		for j, n := range s.Plucked() {
			if j > 0 {
				b.WriteByte(' ')
			}
			b.WriteString(n.Pitch.String())
		}
	}
	return b.String()
}

// longestAnswer is the longest text, in bytes, that is taken for an answer.
const longestAnswer = 200

// understand reads an answer; its error says what would be understood.
func (q *Question) understand(text string) (Given, error) {
	g, err := q.parse(text)
	if err != nil {
		return Given{}, say.Wrong("{}; type {}", say.Said(err), q.Typing())
	}
	return g, nil
}

// Reads returns the id of the answer that a text is read as; false if it is read as none.
func (q *Question) Reads(text string) (id string, ok bool) {
	g, err := q.understand(text)
	return g.ID, err == nil
}

func (q *Question) parse(text string) (Given, error) {
	text = strings.TrimSpace(text)
	if len(text) > longestAnswer {
		return Given{}, unread(text)
	}
	for n, c := range q.Choices {
		if text == c.Typed || read.Names(text, c.Said) {
			return q.chosen(n), nil
		}
	}
	if n, ok := read.WholeNumber(text); ok && n >= 1 && n <= len(q.Choices) {
		return q.chosen(n - 1), nil
	}
	if n, ok := read.Cardinal(text); ok && n <= len(q.Choices) {
		return q.chosen(n - 1), nil
	}
	g, err := q.Answers.typed(text)
	if !errors.Is(err, ErrUnread) {
		return g, err
	}
	// Only now whatever the case: m7 is no M7.
	for n, c := range q.Choices {
		if SameWords(text, c.Typed) {
			return q.chosen(n), nil
		}
	}
	return Given{}, unread(text)
}

// chosen is the n-th of the choices as an answer, counted from 0.
func (q *Question) chosen(n int) Given {
	g := q.Answers.choice(n)
	g.Said = q.Choices[n].Said
	return g
}

// ErrUnread is the error of an answer about which there is nothing more to say.
var ErrUnread = errors.New("not an answer here")

func unread(text string) error { return say.Wrong("{} is not an answer here", say.Typed(text)) }

// Typing says what would be understood as an answer, to follow the word "type". What it has as an example is never right.
func (q *Question) Typing() say.Text {
	switch q.Form {
	case Tones:
		return sayTypeTones(q.Tuning, q.example(toneExamples))
	case Frets:
		return sayTypeFrets(q.Tuning, q.example(fretExamples))
	case Notes:
		return sayTypeNotes
	}
	return sayTypeChoice(q.Choices)
}

// Rows that stand as examples of an answer string by string: as many of each as there are strings. 0232 is G on a ukulele and D on a baritone,
// where the other is no chord that is asked for.
var (
	toneExamples = [][]string{{"R", "3", "5", "R", "3", "5", "R", "3"}, {"3", "R", "5", "3", "R", "5", "3", "R"}}
	fretExamples = [][]string{{"0", "2", "3", "2", "0", "1", "0", "2"}, {"0", "1", "2", "3", "0", "1", "2", "3"}}
)

// example returns the first of some rows that is not right, else the last, as long as there are strings.
func (q *Question) example(rows [][]string) (row []string) {
	for _, row = range rows {
		row = row[:min(len(q.Tuning.Strings), len(row))]
		if !q.IsRight(strings.Join(row, " ")) {
			break
		}
	}
	return row
}

// SameWords compares two labels as a listener would: case, hyphens and spacing do not count.
func SameWords(a, b string) bool { return read.Words(a) == read.Words(b) }

// MostChoices is how many answers a question offers at the most: few enough to weigh each one by
// ear, and each on one key.
const MostChoices = 5
