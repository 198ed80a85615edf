package played

import (
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// What is said of everything that is played.
var (
	sayStrum       = say.Of("Play it: strike all strings once.")
	sayThatIsIt    = say.Of("That is it.")
	sayNotSure     = say.Of("Not sure.")
	saySameAgain   = say.Of("I heard the same once more.")
	sayNoisy       = say.Of("It is too noisy to hear the strings: quiet, please, or nearer to the microphone.")
	sayNothing     = say.Of("No string was heard in that.")
	sayNoStroke    = say.Of("No stroke over all strings was heard.")
	sayTwoNotes    = say.Of("Play or sing two notes that far apart, one after the other.")
	sayOneNote     = say.Of("One note; now the other.")
	sayRootAndNote = say.Of("Play or sing the root of the chord, then the note.")
	sayRootHeard   = say.Of("One note; now the note that was played by itself.")
	sayTooWide     = say.Of("Those are more than two octaves apart. Play or sing both once more.")
	sayGiveUp      = say.Of("Still not sure. Pluck them once more, slower, or answer with a key.")
)

func sayPluckAll(on *fret.Tuning) say.Text {
	return say.Of("Pluck the strings one after another, from {} to {}.", say.String{On: on, Number: len(on.Strings)}, say.String{On: on, Number: 1})
}

// sayPlucked says how many strings of how many were plucked.
func sayPlucked(done, of int) say.Text {
	return say.Of("Plucked: {} of {}.", say.Number(done), say.Number(of))
}

func sayPluckThese(on *fret.Tuning, numbers []int) say.Text {
	return say.Of("Pluck {} in turn, one after the other.", say.TheStrings(on, numbers...))
}

func sayAlike(on *fret.Tuning, numbers []int) say.Text {
	return say.Sentence("{} cannot be told apart in one stroke: pluck them in turn.", say.TheStrings(on, numbers...))
}

func sayAnother(c theory.Chord) say.Text {
	return say.Of("Another chord: this sounds like {}.", say.Chord(c))
}

// sayStringAmiss says what a string sounds that should sound something else.
func sayStringAmiss(on *fret.Tuning, is, want fret.StringTone) say.Text {
	string := say.TheStrings(on, is.Number)
	switch {
	case is.Fret == fret.Muted:
		return say.Of("{} is silent", string)
	case want.Fret == fret.Muted:
		return say.Of("{} sounds {} and should be silent", string, say.Note(is.Pitch.Note))
	case is.Pitch.Note == want.Pitch.Note:
		return say.Of("{} sounds {}, not {}", string, say.Pitch(is.Pitch), say.Pitch(want.Pitch))
	}
	return say.Of("{} sounds {}, not {}", string, say.Note(is.Pitch.Note), say.Note(want.Pitch.Note))
}

func sayPluckTone(tone theory.Interval) say.Text {
	return say.Of("Pluck each string that is {}, then wait.", say.Role(tone))
}

func sayToneOn(on *fret.Tuning, numbers []int, tone theory.Interval) say.Text {
	return say.Sentence("{}: {}.", say.TheStrings(on, numbers...), say.Role(tone))
}

func sayNoTone(on *fret.Tuning, numbers []int) say.Text {
	return say.Sentence("{} {} plucked for no tone, so once more.", say.TheStrings(on, numbers...), say.Agree{N: len(numbers), One: "was", Many: "were"})
}

func sayPlayNotes(c theory.Chord) say.Text {
	return say.Of("Play or sing the notes of {}, one after another.", say.Chord(c))
}

func sayNotesSoFar(notes []theory.Note) say.Text {
	return say.Of("So far: {}.", say.Commas(say.Notes(notes)...))
}

func sayNoSuchTone(above int) say.Text {
	return say.Of("{} above the first note is no tone of such a chord.", say.Count{N: above, One: "semitone", Many: "semitones"})
}
