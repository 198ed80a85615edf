package drills

import (
	"slices"
	"time"

	"sparetone/progress"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Verdict is what came of an answer, and why.
type Verdict struct {
	Result   progress.Result
	Given    say.Text // the answer as it was understood
	Expected say.Text // what would have been right
	TakenFor string   // the target that was named instead; "" if the answer is right
	NotKnown bool     // the answer was that it is not known

	Short    say.Text      // of the explanation the one sentence to be said at once; zero if what is expected says it
	Lines    []say.Text    // the whole explanation, a sentence or two a line
	Shapes   []Reveal      // what was asked, and then what was answered where that can be shown
	Asked    []Sound       // to hear again what was asked
	Other    []Sound       // to hear what was answered instead, as it would have been asked; empty if the answer is right
	Contrast Contrast      // to hear what tells the one from the other; empty if the answer is right
	BackIn   time.Duration // until it needs practice again; filled in by Session, 0 if it cannot be said
	BackAs   say.Text      // the form it is asked in then, where the answer has moved it; filled in by Session, else zero
}

// Reveal is a shape shown after the answer, with all that is known of it.
type Reveal struct {
	Caption say.Text
	Voicing fret.Voicing
	Mark    int   // number of the string that the question was about; 0 if none
	InTurn  []int // strings of two notes as they are heard, one after the other; nil where it is a chord, or they sound together
}

// Say adds lines to the explanation, leaving out empty ones.
func (v *Verdict) Say(lines ...say.Text) {
	for _, l := range lines {
		if !l.IsZero() {
			v.Lines = append(v.Lines, l)
		}
	}
}

// AskedShapes lists the shapes of what was asked, in order: the first, and all that are heard again with it. What was
// answered instead is not among them.
func (v Verdict) AskedShapes() []Reveal {
	var out []Reveal
	for i, s := range v.Shapes {
		notes := Soundings(s.Voicing)
		if i == 0 || slices.ContainsFunc(v.Asked, func(heard Sound) bool { return slices.Equal(heard.Notes, notes) }) {
			out = append(out, s)
		}
	}
	return out
}

// First is the index of the shape to look at first: the one of which a string is marked, which is what became of the one before it,
// or else the first.
func (v Verdict) First() int {
	return max(0, slices.IndexFunc(v.Shapes, func(r Reveal) bool { return r.Mark != 0 }))
}

// Contrast is what was right and what was answered instead, each a few sounds in turn, reduced to what tells them apart: of a chord
// that one string changed, only what it became. It is empty where an answer makes no sound, as that it is not known.
type Contrast struct{ Right, Given []Sound }

// Any reports whether there is anything to set against each other.
func (c Contrast) Any() bool { return len(c.Right) > 0 && len(c.Given) > 0 }
