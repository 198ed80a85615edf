package page

import (
	"slices"
	"strconv"
	"strings"

	"sparetone/drills"
	"sparetone/drills/bench"
	"sparetone/drills/practice"
	"sparetone/drills/practice/songwork"
	"sparetone/theory/say"
	"sparetone/tui/draw"
)

// Block is a part of a page: one of the types of this file, or *Hand or *Tones. They stand in a page from its top.
type Block any

// Tone is what a sentence is for, which the screen tells by weight and colour.
type Tone int

// The tones of sentences.
const (
	Plain  Tone = iota
	Quiet       // about what matters more
	Strong      // a title, or what is asked
	Right       // an answer was right, or something went well
	Wrong       // the opposite
)

// Sentence is one sentence or a few, of both faces.
type Sentence struct {
	Text   say.Text
	Tone   Tone
	IfRoom bool // the screen leaves it out where there is little room
}

// Seen is a sentence of the screen alone: lines of text say it otherwise or not at all.
type Seen Sentence

// Aloud is a sentence of lines of text alone.
type Aloud say.Text

// Gap is an empty line on the screen.
type Gap struct {
	IfRoom bool // the screen leaves it out where there is little room
}

// Weeks are days, the last one today, with whether there was practice; the screen sets them in weeks.
type Weeks []bool

// Neck is a shape on the neck.
type Neck draw.Neck

// Strings is a picture of the strings as they sound, a line each.
type Strings struct {
	Sounds []drills.Sound
	Count  int // how many strings the instrument has
}

// Outcome is what came of an answer.
type Outcome struct {
	Sign string // says the same as Text, for those who look
	Text say.Text
	Tone Tone
}

// Shapes are shapes of which one shows at a time where there is little room, with what is said of them.
type Shapes struct {
	All     []drills.Reveal
	Asked   []drills.Reveal // those of All that lines of text say
	At      int             // index of the shape that shows
	Now     int             // the shape that sounds now, counted from 1; 0 if none does
	Lit     []int           // numbers of strings that are marked in all shapes
	Fingers bool            // each shape tells which finger stops what
	Bare    bool            // neither notes nor degrees stand under the shapes
	Lines   []say.Text      // sentences below the shapes
	Unsaid  bool            // Lines are of the screen alone
}

// Sounding is a line with the name of what sounds now, empty while Now is nil. Lines of text name sounds beforehand.
type Sounding struct{ Now *drills.Sound }

// Summary is what came of a session.
type Summary practice.Summary

// Curve is how many things are told apart by ear, week by week.
type Curve practice.Curve

// KindMap is how well each kind of chord is known.
type KindMap practice.KindMap

// Needles are the strings of an instrument, each with how far it is off.
type Needles struct {
	*practice.Tuner
}

// Takeaway is a chord to take to the instrument: the neck to begin from tells which finger stops what.
type Takeaway struct{ bench.Takeaway }

// Bars are the bars of a song, with the chord that is marked and the bar that sounds. A place is a chord as it is written, counted from 0.
type Bars struct {
	All    []songwork.SongBar
	Mark   int                    // the place that is marked
	Sounds int                    // number of the bar that sounds; 0 if none does
	Symbol func(place int) string // the chord at a place
	Lit    func(place int) bool   // whether its chord was heard, as the student played it; nil where nobody plays
	Point  func(place int) Next   // marks a place that was clicked
}

// Choice is a list of lines, of which one may be marked and picked.
type Choice struct {
	Lines     []Line
	Mark      *int                 // index of the line that is marked; -1 while none is
	Answers   bool                 // lines are answers: they stand in the middle, and a figure that is the key of none is told which there are
	SaidFirst int                  // how many lines lines of text say before "more" is typed; 0 is all
	Pick      func(n int) Next     // takes line n
	Aloud     func(n int) say.Text // line n as lines of text say it, zero where they do not; nil where that is its Text
	Turn      func(n, by int) Next // steps line n to its next value; nil where lines have no values
	About     say.Text             // about the line that is marked
	TopFirst  bool                 // where the page is too long, its top shows and not the mark
	Unmarked  say.Text             // is said where a line is taken and none is marked yet
	Enters    bool                 // the key of a line only marks it, and enter takes it: enter after a key takes nothing that was not seen
}

// Line is a line of a choice.
type Line struct {
	Key    string          // takes the line at once on the screen; empty where only arrows and the mouse do
	Text   say.Text        // what the line says on the screen, and in lines where Choice.Aloud is nil
	More   string          // stands behind Text on the screen, quietly
	Learnt practice.Learnt // how much of what the line names is known, drawn as a bar; zero for none
	Value  string          // the value of the line, where Choice.Turn steps through values
	Names  []string        // may be typed for the line, beside its number
}

// lineKeys are the keys of the lines of a choice, in their order: after the figures come letters.
const lineKeys = "123456789abcdefgh"

// Numbered gives lines their keys, as far as there are any, and returns them.
func Numbered(lines []Line) []Line {
	for i := range lines[:min(len(lines), len(lineKeys))] {
		lines[i].Key = lineKeys[i : i+1]
	}
	return lines
}

// Take picks the line that was typed: a line by its number or one of its names, whatever the case and with spaces for hyphens.
func (c Choice) Take(typed string) Next {
	if n, err := strconv.Atoi(typed); err == nil && n >= 1 && n <= len(c.Lines) {
		return c.Pick(n - 1)
	}
	plain := func(s string) string { return strings.ToLower(strings.ReplaceAll(s, "-", " ")) }
	n := slices.IndexFunc(c.Lines, func(l Line) bool {
		return slices.ContainsFunc(l.Names, func(name string) bool { return plain(name) == plain(typed) })
	})
	if n < 0 {
		return Next{Unknown: true}
	}
	return c.Pick(n)
}

// Chart is what is mistaken for what in a drill, to go over cell by cell; in lines of text it is a choice of pairs.
type Chart struct {
	practice.Mixed
	Row, Col *int
	Pairs    Choice
}

// Field is where text is typed on the screen. Lines of text need none: Page.Take has what is typed.
type Field struct {
	Label       string
	Does        string                      // what enter does with the text
	Text        string                      // what stands in the field at first
	MaxLength   int                         // how many characters can be typed; 0 is the screen's own limit
	Complete    func(begun string) []string // lists what begun may become, for tab; nil for nothing
	Open        bool                        // the field is open at first, so that letters go to it; else an act opens it
	StaysOpen   bool                        // the field cannot be closed
	WhileOpen   []Block                     // stand above the field while it is open
	WhileClosed []Block                     // stand in its place while it is closed; nil leaves the field standing
	Multiline   bool                        // the text is one line of several: what is pasted may have more, and spaces at its ends count
	Empty       say.Text                    // is said on enter where nothing was typed; zero closes the field
}

// Grip is what a hand holds on the bench, and what it becomes where one string is moved.
type Grip struct {
	bench.Grip
	Hand    *Hand
	Swap    int              // index among the grip's swaps of the one that is looked at; -1 for none
	Fingers bool             // the neck tells which finger stops what
	Look    func(n int) Next // looks at swap n
}

// Acts are the acts of a page whose main block is the choice: does is what taking a line does; others come after it in the bottom line.
func (c Choice) Acts(does string, others ...Act) []Act {
	choose := Called("choose", func(string) Next { return c.Pick(*c.Mark) }).As(does)
	out := append([]Act{choose, OnScreen("mark")}, others...)
	if len(c.Lines) > 0 && c.Lines[0].Key == "1" {
		out = append(out, NumberKeys(len(c.Lines)).As("by number"))
	}
	return Only(out...)
}

// NumberKeys is the act of pressing the key of one of the first n lines of a choice.
func NumberKeys(n int) Act {
	const figures = 9
	n = min(n, len(lineKeys))
	a := OnScreen("number")
	a.Keys = strings.Join(strings.Split(lineKeys[:n], ""), " ")
	if a.KeyName = "1"; n > 1 {
		a.KeyName += "–" + lineKeys[min(n, figures)-1:][:1]
	}
	if n > figures {
		a.KeyName += " a–" + lineKeys[n-1:n]
	}
	return a
}
