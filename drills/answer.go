package drills

import (
	"fmt"

	"sparetone/progress"
	"sparetone/theory/say"
)

// Given is an answer that was read and marked.
type Given struct {
	ID      string   // of a choice, or what else the drill calls it
	Said    say.Text // the answer as it was understood
	Result  progress.Result
	Note    say.Text       // a word on how it was put, such as its spelling; zero if there is nothing to say
	explain func(*Verdict) // fills in Lines, Shapes, Other and TakenFor
}

// Right reports whether an answer is right as a whole.
func (g Given) Right() bool { return g.Result == progress.Right }

// RightIf is the result of an answer that is right or wrong as a whole.
func RightIf(right bool) progress.Result {
	if right {
		return progress.Right
	}
	return progress.Wrong
}

// Reader reads answers to a question and marks them.
type Reader interface {
	choice(n int) Given               // the n-th of the choices, counted from 0
	typed(text string) (Given, error) // what is none of the choices' texts; errUnread if there is nothing more to say about it
}

// Answers are the answers to a question as values of a type: an answer is read once, and marked and explained from what
// was read.
type Answers[A any] struct {
	Offered []A // what the choices mean, each in its order; empty if there are none
	Read    func(text string) (A, error)
	Mark    func(a A) Given // without its explanation
	Explain func(a A, g Given, v *Verdict)
}

func (s Answers[A]) choice(n int) Given {
	if n >= len(s.Offered) {
		panic(fmt.Sprintf("drills: choice %d of a question has no value, Offered has %d", n+1, len(s.Offered)))
	}
	return s.of(s.Offered[n])
}

func (s Answers[A]) typed(text string) (Given, error) {
	a, err := s.Read(text)
	if err != nil {
		return Given{}, err
	}
	return s.of(a), nil
}

func (s Answers[A]) of(a A) Given {
	g := s.Mark(a)
	g.explain = func(v *Verdict) { s.Explain(a, g, v) }
	return g
}
