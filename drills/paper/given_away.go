package paper

import (
	"fmt"
	"slices"
	"strings"

	"sparetone/drills"
)

// All of a paper lies before a student at once: where one question shows a shape with its name, another that asks for the name of that
// shape, or for a shape of that name, set anew or made by moving one string, is answered by it. Another question is made in its place, if need be about something else that the same
// step asks. Where a lesson has so few chords that each gives something away, it stays.

// otherTries is how many other questions are made at the most for one that gives another away, is given away, or asks what was asked before.
const otherTries = 24

// asksAgain reports whether a question asks what one of some others asks: the same words about the same shape, notes and key, in whatever
// order the notes are plucked.
func asksAgain(q *drills.Question, others []*drills.Question) bool {
	asked := askedBy(q)
	return slices.ContainsFunc(others, func(o *drills.Question) bool { return askedBy(o) == asked })
}

// askedBy is what a question asks, for comparing.
func askedBy(q *drills.Question) string {
	var b strings.Builder
	fmt.Fprint(&b, q.Drill, q.Target, q.Prompt.Screen())
	if q.Shown != nil {
		fmt.Fprint(&b, q.Shown.Shape)
	}
	for _, s := range q.Sounds {
		var pitches []int
		for _, n := range s.Plucked() {
			pitches = append(pitches, n.Pitch.MIDI())
		}
		slices.Sort(pitches)
		fmt.Fprint(&b, pitches)
	}
	return b.String()
}

// givesAnyAway reports whether a question gives one of some others away, or one of those it.
func givesAnyAway(q *drills.Question, others []*drills.Question) bool {
	return slices.ContainsFunc(others, func(o *drills.Question) bool { return givesAway(q, o) || givesAway(o, q) })
}

// givesAway reports whether what one question shows and names answers the other.
func givesAway(one, other *drills.Question) bool {
	if one.Shown == nil || asksName(one) {
		return false
	}
	if asksName(other) {
		return slices.Equal(one.Shown.Shape, other.Shown.Shape)
	}
	if other.Form != drills.Frets || other.Answer.Kind == nil || other.Answer.Symbol() != one.Shown.Chord.Symbol() {
		return false
	}
	return other.IsRight(one.Shown.Shape.String())
}

// asksName reports whether a question asks for the name of the shape that it shows, which it does not say itself.
func asksName(q *drills.Question) bool {
	return q.Shown != nil && q.Expected().Typed == q.Shown.Chord.Symbol()
}

// cleared takes questions for the places of a version by pick, anew without those of its candidates that another of them gives away, as
// long as there is one and its place has others.
func cleared(places [][]candidate, pick func() []*drills.Question) []*drills.Question {
	for {
		taken := pick()
		n := slices.IndexFunc(taken, func(q *drills.Question) bool {
			return slices.ContainsFunc(taken, func(o *drills.Question) bool { return givesAway(o, q) })
		})
		if n < 0 {
			return taken
		}
		kept := slices.DeleteFunc(slices.Clone(places[n]), func(c candidate) bool {
			return slices.ContainsFunc(taken, func(o *drills.Question) bool { return givesAway(o, c.Question) })
		})
		if len(kept) == 0 {
			return taken
		}
		places[n] = kept
	}
}
