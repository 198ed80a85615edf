package practice

import (
	"errors"
	"io/fs"
	"strings"

	"sparetone/progress/whole"
	"sparetone/theory/say"
)

// times is a number of times.
func times(n int) say.Count { return say.Count{N: n, One: "time", Many: "times"} }

// Sentence is what somebody is told on the screen, of words without a full stop: they begin with a capital letter and end
// with one.
func Sentence(s string) string { return sentence(say.Foreign(s)).Screen() }

// SentenceOf is an error as a sentence; one of a file begins with the file's name as it is.
func SentenceOf(err error) say.Text {
	if of := (*fs.PathError)(nil); errors.As(err, &of) {
		said := say.Foreign(whole.Said(err))
		if strings.HasPrefix(string(said), of.Path) {
			return say.Of("{}", say.Ended(said))
		}
		return sentence(said)
	}
	return sentence(say.Said(err))
}

func sentence(of say.Fact) say.Text { return say.Sentence("{}", say.Ended(of)) }
