package drills

import (
	"sparetone/progress"
	"sparetone/theory/say"
)

// given is an answer that was read and marked.
type given struct {
	id      string   // of a choice, or what else the drill calls it
	said    say.Text // the answer as it was understood
	result  progress.Result
	note    say.Text       // a word on how it was put, such as its spelling; zero if there is nothing to say
	explain func(*Verdict) // fills in Lines, Shapes, Other and TakenFor
}

func (g given) right() bool { return g.result == progress.Right }

// rightIf is the result of an answer that is right or wrong as a whole.
func rightIf(right bool) progress.Result {
	if right {
		return progress.Right
	}
	return progress.Wrong
}

// reader reads answers to a question and marks them.
type reader interface {
	choice(n int) given               // the n-th of the choices, counted from 0
	typed(text string) (given, error) // what is none of the choices' texts; errUnread if there is nothing more to say about it
}

// answers are the answers to a question as values of a type: an answer is read once, and marked and explained from what
// was read.
type answers[A any] struct {
	offered []A // what the choices mean, in their order; empty if there are none
	read    func(text string) (A, error)
	mark    func(a A) given // without its explanation
	explain func(a A, g given, v *Verdict)
}

func (s answers[A]) choice(n int) given { return s.of(s.offered[n]) }

func (s answers[A]) typed(text string) (given, error) {
	a, err := s.read(text)
	if err != nil {
		return given{}, err
	}
	return s.of(a), nil
}

func (s answers[A]) of(a A) given {
	g := s.mark(a)
	g.explain = func(v *Verdict) { s.explain(a, g, v) }
	return g
}
