// Package wording has the sentences about chords and shapes that several rooms of drills say, and what tells one kind of chord from
// another, string by string. What one room alone says stands in its sentences.go.
package wording

import (
	"sparetone/drills/chord"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Sentences are clauses as sentences.
func Sentences(clauses []say.Text) []say.Text {
	out := make([]say.Text, len(clauses))
	for i, c := range clauses {
		out[i] = say.Sentence("{}", c)
	}
	return out
}

// First is the first of some clauses as a sentence, zero if there are none.
func First(clauses []say.Text) say.Text {
	if len(clauses) == 0 {
		return say.Text{}
	}
	return Sentences(clauses[:1])[0]
}

// Kind is a kind of chord by its name.
func Kind(k *theory.Kind) say.Text { return say.Of("{}", say.Kind{Kind: k}) }

// Interval is an interval by its name.
func Interval(i theory.Interval) say.Text { return say.Of("{}", say.Interval(i)) }

// Chord is a chord by its symbol.
func Chord(c theory.Chord) say.Text { return say.Of("{}", say.Chord(c)) }

// InFull is a chord with its name in words.
func InFull(c theory.Chord) say.Text { return say.Of("{}", say.InFull(c)) }

// Titled is a chord by its symbol, with the name of its kind where the symbol has that in short.
func Titled(c theory.Chord) say.Text { return say.Of("{}", say.Titled(c)) }

// Plain is a chord by its symbol, said to be plain.
func Plain(c theory.Chord) say.Text { return say.Of("{}, plain", say.Chord(c)) }

// Note is a note by its letter and sign.
func Note(n theory.Note) say.Text { return say.Of("{}", say.Note(n)) }

// Notes are some notes in a row.
func Notes(notes []theory.Note) say.Text { return say.Of("{}", say.Row(say.Notes(notes)...)) }

// Shape is a fret for each string.
func Shape(s fret.Shape) say.Text { return say.Of("{}", say.Shape(s)) }

// AChord is a kind of chord with its article: a minor chord.
func AChord(k *theory.Kind) say.Text { return say.Of("{} chord", say.A(say.Kind{Kind: k})) }

func isOn(v fret.Voicing, tone theory.Interval, on []int) say.Text {
	return say.Of("{}, {}, is on {}", say.Note(v.Chord.Root.Up(tone)), say.Role(tone), say.TheStrings(v.Tuning, on...))
}

func sayHasInstead(v fret.Voicing, tone theory.Interval, on []int, other *theory.Kind, instead theory.Interval) say.Text {
	return say.Of("{}; {} has {}, {}.", isOn(v, tone, on), AChord(other), say.Note(v.Chord.Root.Up(instead)), say.Role(instead))
}

func sayHasNoSuch(v fret.Voicing, tone theory.Interval, on []int, other *theory.Kind) say.Text {
	return say.Of("{}; {} has no such note.", isOn(v, tone, on), AChord(other))
}

func sayHasNone(v fret.Voicing, tone theory.Interval, on []int, other *theory.Kind) say.Text {
	return say.Of("{}; {} has no {}.", isOn(v, tone, on), AChord(other), say.Ordinal(tone))
}

func sayWouldHave(v fret.Voicing, other *theory.Kind, tone theory.Interval) say.Text {
	return say.Of("{} would have {}, {}; no string sounds it.", AChord(other), say.Note(v.Chord.Root.Up(tone)), say.Role(tone))
}

// EachTone says what some notes of a chord are in it.
func EachTone(c theory.Chord, tones []theory.Interval) say.Text {
	out := make([]say.Text, len(tones))
	for i, tone := range tones {
		out[i] = say.Of("{} is {}", say.Note(c.Root.Up(tone)), say.Role(tone))
	}
	return say.Of("{}.", say.And(out...))
}

// Tones says what each note that a voicing sounds is in its chord, from the root up.
func Tones(v fret.Voicing) say.Text { return EachTone(v.Chord, soundedTones(v)) }

// LeftOut says which tones of a chord no string sounds; zero if all do.
func LeftOut(v fret.Voicing) say.Text {
	missing := v.Missing()
	if len(missing) == 0 {
		return say.Text{}
	}
	return say.Sentence("{} {} left out.", say.And(say.Roles(missing)...), say.Agree{N: len(missing), One: "is", Many: "are"})
}

// IsNotes says which notes a chord is, or, where some are left out, which of it sound; and which is in the bass, if that is not the root.
func IsNotes(v fret.Voicing) say.Text {
	var notes []theory.Note
	for _, tone := range soundedTones(v) {
		notes = append(notes, v.Chord.Root.Up(tone))
	}
	has := say.Words("has the notes")
	if len(v.Missing()) > 0 {
		has = "sounds as"
	}
	if chord.IsTurned(v.Chord) {
		return say.Of("{} {} {}, with {} in the bass.", say.Chord(v.Chord), has, say.And(say.Notes(notes)...), say.Role(v.Chord.Root.To(v.Chord.Bass)))
	}
	return say.Of("{} {} {}.", say.Chord(v.Chord), has, say.And(say.Notes(notes)...))
}

// NotIn says which notes are none of a chord.
func NotIn(c theory.Chord, foreign []theory.Note) say.Text {
	return say.Of("{} {} not in the chord {}.", say.And(say.Notes(foreign)...), say.Agree{N: len(foreign), One: "is", Many: "are"}, say.Chord(c))
}

// LabelPlain is of a chord that is heard before it is changed.
var LabelPlain = say.Of("plain")

// LabelChanged is of what one string made of it.
var LabelChanged = say.Of("changed")

// LabelAnswer is of what was answered.
var LabelAnswer = say.Of("your answer")

// Addition is what comes in: the ninth, or the fourth in place of the third.
func Addition(a chord.Addition) say.Text {
	return say.Of("the {}", say.Words(a.Words()))
}

// Joins says what a plain chord gains: the ninth added to a major chord, or the fourth for the third of one.
func Joins(a chord.Addition) say.Text {
	if a.Suspends {
		return say.Of("the {} in place of the third of {}", say.Words(a.Note), AChord(a.From()))
	}
	return say.Of("the {} added to {}", say.Words(a.Note), AChord(a.From()))
}

// Moved says what a swap did: which string, from what to what, and what was given up.
func Moved(s fret.Swap, before, after fret.Voicing) say.Text {
	from, to := ToneOn(before, s.String), ToneOn(after, s.String)
	rest := say.Of("No other string sounds {}.", say.Note(from.Pitch.Note))
	if s.Spare {
		rest = say.Of("{} still sounds on {}.", say.Note(from.Pitch.Note), say.TheStrings(after.Tuning, StringsWith(after, from.Interval)...))
	}
	return say.Sentence("{} went from {}, {}, to {}, {}: {} becomes {}. {}", say.TheStrings(after.Tuning, s.String),
		say.Note(from.Pitch.Note), say.Role(from.Interval), say.Note(to.Pitch.Note), say.Role(to.Interval), say.Chord(before.Chord), say.Chord(after.Chord), rest)
}

// Went says briefly what a swap did.
func Went(s fret.Swap, before, after fret.Voicing) say.Text {
	return say.Sentence("{} went from {} to {}: {} becomes {}.", say.TheStrings(after.Tuning, s.String),
		say.Note(ToneOn(before, s.String).Pitch.Note), say.Note(ToneOn(after, s.String).Pitch.Note), say.Chord(before.Chord), say.Chord(after.Chord))
}

// ToneOn returns what the string with a number sounds.
func ToneOn(v fret.Voicing, number int) fret.StringTone {
	return v.Strings[len(v.Strings)-number]
}

// Named is a chord with its name in words, and the other names of the same shape that are as right.
func Named(c theory.Chord, others []theory.Chord) say.Text {
	if len(others) == 0 {
		return Titled(c)
	}
	return say.Of("{}, also {}", say.Chord(c), say.And(say.Chords(others)...))
}

// AlsoCalled says which other names a shape has.
func AlsoCalled(others []theory.Chord) say.Text {
	return say.Of("The same notes are also called {}.", say.And(say.Chords(others)...))
}

// Stopped says where a string is stopped: at fret 3, open, muted.
func Stopped(at int) say.Text {
	switch at {
	case fret.Muted:
		return say.Of("muted")
	case 0:
		return say.Of("open")
	}
	return say.Of("at fret {}", say.Number(at))
}
