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
)

// Question is one thing asked: what is heard or seen, and how it may be answered. A Drill makes it. It is
// answered in text, as a person would type it; a key, a click or a finger on a neck stands for that text.
type Question struct {
	Drill, Target string
	Prompt        string        // one line
	Form          Form          // how an interface may help to answer
	Sounds        []Sound       // heard in turn; empty for a question to the eye alone
	Shown         *fret.Voicing // the shape to look at, or to start from; nil if there is none
	Named         bool          // the shape's notes and intervals may be written under it
	Voice         *synth.Voice
	Choices       []Choice // for Choose
	Accepts       []string // what else is right, as a person would type it

	expected Choice
	tuning   *fret.Tuning                // whose strings are the answer; nil where they are not
	answer   theory.Chord                // whose notes or strings are the answer; zero where they are not
	read     func(string) (given, error) // understands an answer that is not one of the choices' texts
	explain  func(given, *Verdict)       // fills in Lines, Shapes, Other and TakenFor
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

// Choice is one of the answers offered.
type Choice struct {
	ID     string // what the drill calls it
	Label  string // as it is shown
	Spoken string // as it is said aloud
	Typed  string // as a person would type it
}

// given is an answer that was understood.
type given struct {
	id     string // of a choice, or what else the drill calls it
	label  string
	result progress.Result
	note   string // a word on how it was put, such as its spelling
}

func (g given) right() bool { return g.result == progress.Right }

// rightIf is the result of an answer that is right or wrong as a whole.
func rightIf(right bool) progress.Result {
	if right {
		return progress.Right
	}
	return progress.Wrong
}

// Expected returns the answer that is marked right; of several, the plainest.
func (q *Question) Expected() Choice { return q.expected }

// Answer returns the chord whose notes or strings are the answer; a zero one where they are not.
func (q *Question) Answer() theory.Chord { return q.answer }

// offer sets the choices and which of them is right.
func (q *Question) offer(right string, choices ...Choice) {
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
		v.Result, v.Given = progress.Wrong, Unknown
		return v, nil
	}
	g, err := q.understand(text)
	if err != nil {
		return Verdict{}, err
	}
	v := Verdict{Result: g.result, Given: g.label, Expected: q.expected.Label, Asked: q.Sounds}
	v.say(g.note)
	q.explain(g, &v)
	return v, nil
}

// Result marks an answer without explaining it. Its errors are those of Mark.
func (q *Question) Result(text string) (progress.Result, error) {
	g, err := q.understand(text)
	return g.result, err
}

// Unknown is the answer of whoever does not know, as it is recorded.
const Unknown = "I don't know"

// unknowns are the words for it.
var unknowns = []string{"i dont know", "dont know", "i do not know", "no idea", "i have no idea", "not sure", "pass", "?"}

// SaysUnknown reports whether a text says that it is not known.
func SaysUnknown(text string) bool {
	return slices.Contains(unknowns, unquoted.Replace(read.Words(text)))
}

var unquoted = strings.NewReplacer("'", "", "’", "")

// ChordOf names the chord that a question which is answered string by string, or note by note, was about.
func (q *Question) ChordOf(v Verdict) string {
	shapes := v.AskedShapes()
	if q.Form == Choose || len(shapes) == 0 {
		return ""
	}
	return shapes[len(shapes)-1].Voicing.Chord.String()
}

// Text is the question as one line, for the record: its sounds in turn, the notes of each in the order plucked.
func (q *Question) Text() string {
	var b strings.Builder
	b.WriteString(q.Prompt)
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
func (q *Question) understand(text string) (given, error) {
	g, err := q.parse(text)
	if err != nil {
		return given{}, fmt.Errorf("%w; type %s", err, q.Typing())
	}
	return g, nil
}

func (q *Question) parse(text string) (given, error) {
	text = strings.TrimSpace(text)
	if len(text) > longestAnswer {
		return given{}, unread(text)
	}
	for _, c := range q.Choices {
		if text == c.Typed || sameWords(text, c.Label) || sameWords(text, c.Spoken) {
			return q.chosen(c), nil
		}
	}
	if n, ok := read.WholeNumber(text); ok && n >= 1 && n <= len(q.Choices) {
		return q.chosen(q.Choices[n-1]), nil
	}
	g, err := given{}, errUnread
	if q.read != nil {
		g, err = q.read(text)
	}
	if !errors.Is(err, errUnread) {
		return g, err
	}
	// Only now whatever the case: m7 is no M7.
	for _, c := range q.Choices {
		if sameWords(text, c.Typed) {
			return q.chosen(c), nil
		}
	}
	return given{}, unread(text)
}

// chosen is one of the choices as an answer.
func (q *Question) chosen(c Choice) given {
	return given{id: c.ID, label: c.Label, result: rightIf(c.ID == q.expected.ID)}
}

// errUnread is the error of an answer about which there is nothing more to say.
var errUnread = errors.New("not an answer here")

func unread(text string) error { return fmt.Errorf("%q is not an answer here", theory.Clip(text)) }

// Typing says what would be understood as an answer, to follow the word "type".
func (q *Question) Typing() string {
	switch q.Form {
	case Tones:
		return q.stringByString("what each string is", "R 3 5 R 3 5 R 3", "that does not sound")
	case Frets:
		return q.stringByString("a fret for each string", "0 2 3 2 0 1 0 2", "that is muted")
	case Notes:
		return "the notes, such as F# A Bb"
	}
	said := make([]string, len(q.Choices))
	for i, c := range q.Choices {
		said[i] = c.Spoken // m3 and M3 sound alike
	}
	between := ", "
	if strings.Contains(strings.Join(said, ""), ",") {
		between = "; "
	}
	return fmt.Sprintf("a number from 1 to %d, or one of: %s", len(q.Choices), strings.Join(said, between))
}

// stringByString says how an answer of one word for each string is typed, with as many words of an example, and
// which strings x is for.
func (q *Question) stringByString(what, example, silent string) string {
	n := len(strings.Fields(q.expected.Spoken))
	words := strings.Fields(example)
	return fmt.Sprintf("%s, the %s string first, such as %s, and x for one %s", what, q.tuning.StringCalled(n), strings.Join(words[:min(n, len(words))], " "), silent)
}

// sameWords compares two labels as a listener would: case, hyphens and spacing do not count.
func sameWords(a, b string) bool { return read.Words(a) == read.Words(b) }
