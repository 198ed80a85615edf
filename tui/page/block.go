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

// Block is a part of a page, from its top: one of the types of this file.
type Block any

// Tone is the job of a sentence on the screen.
type Tone int

// The tones of sentences.
const (
	Plain Tone = iota
	Quiet
	Strong
	Right
	Wrong
)

// Sentence is a sentence, or a few.
type Sentence struct {
	Text  say.Text
	Tone  Tone
	Roomy bool // the screen leaves it out where there is little room
}

// Seen is a sentence of the screen alone, where lines of text say it otherwise or not at all.
type Seen Sentence

// Aloud is a sentence of lines of text alone.
type Aloud say.Text

// Gap is an empty line on the screen, one that is Roomy only where there is room.
type Gap struct{ Roomy bool }

// Weeks are days in weeks, the last one today, with whether there was practice.
type Weeks []bool

// Neck is a shape on the neck.
type Neck draw.Neck

// Strings is the picture of what sounds: a line a string.
type Strings struct {
	Sounds []drills.Sound
	Count  int // of strings on the instrument
}

// Outcome is what came of an answer.
type Outcome struct {
	Sign string // says it as well
	Text say.Text
	Tone Tone
}

// Shapes are shapes to turn through, with what is to be said of them.
type Shapes struct {
	All     []drills.Reveal
	Asked   []drills.Reveal // those of them that lines of text say
	At      int             // the one that shows
	Now     int             // the one that sounds now, counted from 1; 0 if none does
	Lit     []int           // numbers of strings to mark in all of them
	Fingers bool            // each tells which finger stops what
	Bare    bool            // nothing is written under them
	Lines   []say.Text
	Unsaid  bool // lines of text leave Lines out
}

// Sounding is the name of what sounds now; a line without anything while nothing does. Lines of text name sounds beforehand.
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

// Bars are the bars of a song, with the chord that is marked and the bar that sounds.
type Bars struct {
	All    []songwork.SongBar
	Mark   int // place
	Sounds int // number of the bar that sounds; 0 if none does
	Symbol func(place int) string
	Lit    func(place int) bool // its chord was heard, as the student played it; nil where nobody plays
	Point  func(place int) Next
}

// Choice is a list of which one line is chosen.
type Choice struct {
	Lines   []Line
	Mark    *int // the line that is marked; -1 until one is
	Answers bool // they stand in the middle, as answers do
	Most    int  // lines of text say so many at first; 0 is all
	Pick    func(n int) Next
	Aloud   func(n int) say.Text // a line in lines of text, zero if it is not said; nil is its Text
	Turn    func(n, by int) Next // steps through the values of a line; nil if lines have none
	About   say.Text             // of the line that is marked
	Aloft   bool                 // what stands above is read first: the mark need not be in sight
	Unset   say.Text             // is said where nothing is marked yet
}

// Line is a line of a choice.
type Line struct {
	Key    string // chooses it at once on the screen; empty if only arrows and the mouse do
	Text   say.Text
	More   string          // what more there is to say of it, on the screen
	Brief  string          // in place of More where there is little room
	Learnt practice.Learnt // how much of it is known, drawn as a bar; zero for none
	Value  string          // what it is set to, where its values are stepped through
	Names  []string        // by which it may be typed, beside its number
}

// lineKeys are the keys of the lines of a choice, in their order: after the figures come letters.
const lineKeys = "123456789abcdefgh"

// Numbered gives the first lines their keys.
func Numbered(lines []Line) []Line {
	for i := range lines[:min(len(lines), len(lineKeys))] {
		lines[i].Key = lineKeys[i : i+1]
	}
	return lines
}

// Take chooses what was typed: a line by its number or one of its names, whatever the case and with spaces for hyphens.
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

// Field is a line to type in. Lines of text need none: what they take is typed anyhow.
type Field struct {
	Label    string
	Does     string // what enter does with what was typed
	Text     string // stands in it at first
	Most     int    // characters it takes
	Complete func(begun string) []string
	Open     bool     // letters go to it at first; else an act opens it
	Stays    bool     // it cannot be closed
	Before   []Block  // above it, while letters go to it
	Else     []Block  // in its place while it is closed; nil leaves it standing
	Lines    bool     // a line of several: what is pasted into it may have more, and its spaces count
	Empty    say.Text // is said where nothing was typed; zero closes it
}

// Grip is what a hand holds, and what one string moved makes of it.
type Grip struct {
	bench.Grip
	Hand    *Hand
	Swap    int  // of the grip's swaps the one that is looked at; -1 for none
	Fingers bool // the neck tells which finger stops what
	Look    func(n int) Next
}

// Acts are those of a choice of which choosing does something, with others after the first of them.
func (c Choice) Acts(does string, others ...Act) []Act {
	choose := Called("choose", func(string) Next { return c.Pick(*c.Mark) }).As(does)
	out := append([]Act{choose, Eye("mark")}, others...)
	if len(c.Lines) > 0 && c.Lines[0].Key == "1" {
		out = append(out, NumberKeys(len(c.Lines)).As("by number"))
	}
	return Only(out...)
}

// NumberKeys are the keys of the first lines of a choice.
func NumberKeys(n int) Act {
	const figures = 9
	n = min(n, len(lineKeys))
	a := Eye("number")
	a.Keys = strings.Join(strings.Split(lineKeys[:n], ""), " ")
	a.Shown = "1–" + lineKeys[min(n, figures)-1:][:1]
	if n > figures {
		a.Shown += " a–" + lineKeys[n-1:n]
	}
	return a
}
