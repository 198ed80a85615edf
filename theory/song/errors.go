package song

import (
	"sparetone/theory"
	"sparetone/theory/say"
)

// ChartError is the error of a chart that cannot be read: where, what stands there, and what is wrong with it.
type ChartError struct {
	Line, Column int      // of the chart, both from 1; a tab is one column
	Token        string   // what stands there, as it was written
	Problem      say.Text // what is wrong, and what would be right or is nearest
}

// Say says where and what.
func (e *ChartError) Say() say.Text {
	return say.Of("line {}, column {}: {}", say.Number(e.Line), say.Number(e.Column), e.Problem)
}

func (e *ChartError) Error() string { return e.Say().Screen() }

// What may be wrong with a chart, beside its chords.
var (
	notText     = say.Of("not valid UTF-8: save the file as text in UTF-8")
	nothing     = say.Of("no chords: write bars between |, chords in square brackets in the words, or chords on a line above the words")
	noBarBefore = say.Of("%: there is no bar before to repeat")
	notAlone    = say.Of("%: it stands alone in its bar, for all of the bar before")
	lateEnding  = say.Of("the number of an ending stands right after a bar line: |1. C :|2. G |")
	badBarLine  = say.Of("a bar line is |, and a repeat is written |: C | G :|")
	badTimes    = say.Of("a repeat is played 2 to {} times, written x3", say.Number(MostTimes))
	lateHeader  = say.Of("lines of the header stand before the first chord and the first section; only a key may change later")
	twoLetters  = say.Of("beside an H this could be B flat or B natural: write Bb for B flat, or B for each H")
	keyAlone    = say.Of("a key stands before the lines that are in it, and none follows")
	unclosed    = say.Of("this bracket is not closed")
	emptyName   = say.Of("empty brackets: a chord or the name of a section stands in them")
)

func tooLong(most int) say.Text {
	return say.Of("a chart has at most {}", say.Count{N: most, One: "character", Many: "characters"})
}

// sayHeader says what is wrong with a line of the header.
func sayHeader(name, value, wants string) say.Text {
	return say.Of("{}: {}: {}", say.Words(name), say.Typed(theory.Clip(value)), say.Words(wants))
}

func sayTwice(name string) say.Text {
	return say.Of("{} is said twice", say.Words(name))
}

func sayNearHeader(typed, nearest string) say.Text {
	return say.Of("{} is no line of the header; the nearest we know is {}", say.Typed(typed+":"), say.Words(nearest+":"))
}
