package drills

import (
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// All wording of this room stands here, beside the facts that go into it. Names of chords, tones and intervals are those of theory;
// theory/say prints them.

// sayUnknown is the answer of whoever does not know.
var sayUnknown = say.Of(Unknown)

// How an answer is typed, to follow the word "type".

var sayTypeNotes = say.Of("the notes, such as F# A Bb")

func sayTypeChoice(choices []Choice) say.Text {
	said := make([]say.Text, len(choices))
	for i, c := range choices {
		said[i] = c.Said
	}
	return say.Of("a number from 1 to {}, or one of: {}", say.Number(len(choices)), say.Alternatives(said...))
}

func sayRow(strings []string) say.Text {
	words := make([]say.Words, len(strings))
	for i, s := range strings {
		words[i] = say.Words(s)
	}
	return say.Of("{}", say.Row(words...))
}

func sayTypeTones(on *fret.Tuning, example []string) say.Text {
	return say.Of("what each string is, {} first, such as {}, and x for one that does not sound", say.TheStrings(on, len(on.Strings)), sayRow(example))
}

func sayTypeFrets(on *fret.Tuning, example []string) say.Text {
	return say.Of("a fret for each string, {} first, such as {}, and x for one that is muted", say.TheStrings(on, len(on.Strings)), sayRow(example))
}

// What is wrong with an answer, or why there is no question.

// NoSuchTarget is the error of a drill that is asked for a target it does not have.
func NoSuchTarget(id string) error { return say.Wrong("{} is nothing this drill asks", say.Typed(id)) }

// What may be typed instead.

func sayMoreSwaps(c theory.Chord) say.Text {
	return say.Of("Any other way to make {}, with all its notes, by moving one string is right too.", say.Chord(c))
}

func sayMoreOver(c theory.Chord) say.Text {
	return say.Of("Any other shape of just these notes, with {} in the bass, is right too.", say.Note(c.Bass))
}

var sayMoreShapes = say.Of("Any other shape of just these notes is right too.")
