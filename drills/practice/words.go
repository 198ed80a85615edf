package practice

import (
	"sparetone/theory/say"
)

// times is a number of times.
func times(n int) say.Count { return say.Count{N: n, One: "time", Many: "times"} }

// Sentence is what somebody is told on the screen, of words without a full stop: they begin with a capital letter and end
// with one.
func Sentence(s string) string { return sentence(say.Foreign(s)).Screen() }

// SentenceOf is an error as a sentence.
func SentenceOf(err error) say.Text { return sentence(say.Said(err)) }

func sentence(of say.Fact) say.Text { return say.Sentence("{}", say.Ended(of)) }
