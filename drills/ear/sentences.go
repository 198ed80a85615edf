package ear

import (
	"sparetone/drills/chord"
	"sparetone/drills/wording"
	"sparetone/theory"
	"sparetone/theory/say"
)

var labelFirst = say.Of("first")

var labelSecond = say.Of("second")

var labelThird = say.Of("third")

var labelBothNotes = say.Of("the two notes")

func labelWith(a chord.Addition) say.Text { return say.Of("with {}", wording.Addition(a)) }

func labelSecondAs(k *theory.Kind) say.Text { return say.Of("the second as {}", wording.AChord(k)) }

var (
	askRising   = say.Of("Two notes, going up. Which interval is it?")
	askFalling  = say.Of("Two notes, going down. Which interval is it?")
	askTogether = say.Of("Two notes together. Which interval is it?")
)

// sayUp says which interval two notes make that go up, or sound together.
func sayUp(low, high theory.Note, i theory.Interval) say.Text {
	return say.Of("{} up to {} is {}: {}.", say.Note(low), say.Note(high), say.A(say.Interval(i)), semitones(i.Semitones))
}

// sayDown says which interval two notes make that go down.
func sayDown(low, high theory.Note, i theory.Interval) say.Text {
	return say.Of("{} down to {} is {}: {}.", say.Note(high), say.Note(low), say.A(say.Interval(i)), semitones(i.Semitones))
}

// sayWider says how the interval that sounded differs from the one that was named.
func sayWider(want, other theory.Interval) say.Text {
	if d := want.Semitones - other.Semitones; d >= 0 {
		return say.Of("That is {} wider than {}.", semitones(d), say.A(say.Interval(other)))
	}
	return say.Of("That is {} narrower than {}.", semitones(other.Semitones-want.Semitones), say.A(say.Interval(other)))
}

func sayTwins(named, want theory.Interval) say.Text {
	return say.Sentence("{} sounds the same as {}; here it is written as the second.", say.A(say.Interval(named)), say.A(say.Interval(want)))
}

func semitones(n int) say.Count { return say.Count{N: n, One: "semitone", Many: "semitones"} }

var (
	askKind      = say.Of("Which kind of chord is it?")
	askKindAfter = say.Of("A plain chord, then another on the same note. Which kind is the second?")
	askKindAmong = say.Of("Three chords. Which kind is the second?")
)

func sayBothNames(one, other *theory.Kind) say.Text {
	return say.Of("The same notes make {} on one root and {} on another: both names are right.", wording.AChord(one), wording.AChord(other))
}

var askCameIn = say.Of("A plain chord, then one string changes. Which note came in?")

func askCameInAlone(plain *theory.Kind) say.Text {
	return say.Of("This was {} until one string changed. Which note came in?", wording.AChord(plain))
}

// sayAddedTarget names what is asked: which note came in, after the plain chord or heard on its own.
func sayAddedTarget(a chord.Addition, alone bool) say.Text {
	if alone {
		return say.Of("{}, heard on its own", wording.Joins(a))
	}
	return wording.Joins(a)
}

var (
	askHigherNote     = say.Of("Two notes, one after the other. Which is higher?")
	askSameNote       = say.Of("Two notes, one after the other. Are they the same note?")
	sayHigherNote     = say.Of("which of two notes is higher")
	saySameNoteTarget = say.Of("whether two notes are the same")
	sayOneNote        = say.Of("the same note")
	sayTwoNotes       = say.Of("two different notes")

	askSameKind  = say.Of("Two chords. Are they of the same kind?")
	saySameKind  = say.Of("the same kind")
	sayTwoKinds  = say.Of("different kinds")
	sayTheFirst  = say.Of("the first")
	sayTheSecond = say.Of("the second")
)

func askWhichHas(a chord.Addition) say.Text {
	return say.Of("Two chords. Which of them has {}?", wording.Addition(a))
}

// sayTwoNotesWere says which notes two notes were, and how many semitones one of them is higher; falls is that the higher one came first.
func sayTwoNotesWere(low, high theory.Note, apart int, falls bool) say.Text {
	switch {
	case apart == 0:
		return say.Of("Both are {}, on two strings.", say.Note(low))
	case falls:
		return say.Of("{} goes down to {}: {}.", say.Note(high), say.Note(low), semitones(apart))
	}
	return say.Of("{} goes up to {}: {}.", say.Note(low), say.Note(high), semitones(apart))
}

// sayHowFar says which of two notes was higher, and how many semitones, without a word of the trade: this is asked before any is known.
func sayHowFar(apart int, falls bool) say.Text {
	far := say.Count{N: apart, One: "fret", Many: "frets"}
	if falls {
		return say.Of("The first is higher, by {} on one string.", far)
	}
	return say.Of("The second is higher, by {} on one string.", far)
}

// sayIsHigher says which of two notes is higher: of notes that fall the first.
func sayIsHigher(falls bool) say.Text {
	if falls {
		return say.Of("the first is higher")
	}
	return say.Of("the second is higher")
}

// sayWhichHas names a target that asks which of two chords has an addition.
func sayWhichHas(a chord.Addition) say.Text {
	return say.Of("which of two chords has {}", wording.Joins(a))
}

// sayEither names a target that asks whether two chords are of one of two kinds or of both.
func sayEither(one, other *theory.Kind) say.Text {
	return say.Of("{} or {}", say.Kind{Kind: one}, say.Kind{Kind: other})
}

func sayFirstIs(c theory.Chord) say.Text { return say.Of("the first, {}", say.Titled(c)) }

func saySecondIs(c theory.Chord) say.Text { return say.Of("the second, {}", say.Titled(c)) }

func sayBothAre(k *theory.Kind) say.Text { return say.Of("Both are {} chords.", say.Kind{Kind: k}) }

func sayFirstAndSecond(first, second *theory.Kind) say.Text {
	return say.Of("The first is {}, the second {}.", wording.AChord(first), wording.AChord(second))
}

func sayInSecond(clause say.Text) say.Text { return say.Of("The second chord: {}", clause) }

func sayByAnswer(c theory.Chord) say.Text {
	return say.Of("By your answer the second chord would be {}: hear both.", say.Chord(c))
}
