package shapes

import (
	"sparetone/drills/chord"
	"sparetone/drills/wording"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

var labelYours = say.Of("your shape")

func labelWithout(v fret.Voicing, number int) say.Text {
	return say.Of("{} without {}", say.Chord(v.Chord), say.TheStrings(v.Tuning, number))
}

var askChord = say.Of("Which chord is this?")

var askTurned = say.Of("Any of its notes may be in the bass. Which chord is this?")

func sayAnotherName(c theory.Chord) say.Text {
	return say.Of("{} is another right name for these notes.", say.Chord(c))
}

func askStrings(c theory.Chord) say.Text {
	return say.Of("This is {}. What is each string?", say.Chord(c))
}

// muted is what is written for a string that does not sound.
const muted = "x"

// sayStringTones is what each string of a voicing is: 5 R x 3.
func sayStringTones(v fret.Voicing, tones []theory.Interval) say.Text {
	out := make([]say.Fact, len(tones))
	for i, s := range v.Strings {
		if out[i] = say.Words(muted); s.Fret != fret.Muted {
			out[i] = say.Degree(tones[i])
		}
	}
	return say.Of("{}", say.Row(out...))
}

func wrongNumberOfTones(typed string, tones, sounding int) error {
	few := "many"
	if tones < sounding {
		few = "few"
	}
	return say.Wrong("{} has too {} tones: {} sound", say.Typed(typed), say.Words(few), say.Count{N: sounding, One: "string", Many: "strings"})
}

func stringSounds(on *fret.Tuning, n int) error {
	return say.Wrong("{} sounds", say.TheStrings(on, n))
}

func stringSilent(on *fret.Tuning, n int) error {
	return say.Wrong("{} does not sound: write x for it", say.TheStrings(on, n))
}

// whichTone asks whether a third or a seventh is meant to be minor or major; what is to be typed is said as it is typed.
func whichTone(major theory.Interval) error {
	typed := say.Words(major.DegreeASCII())
	return say.Wrong("which {}: minor or major, {} or {}", say.Ordinal(major), "b"+typed, typed)
}

func sayStringIs(on *fret.Tuning, s fret.StringTone, taken theory.Interval) say.Text {
	return say.Sentence("{} sounds {}: {}, not {}.", say.TheStrings(on, s.Number), say.Note(s.Pitch.Note), say.Role(s.Interval), say.Role(taken))
}

func sayWrittenAs(c theory.Chord, typed, written theory.Interval) say.Text {
	return say.Of("{} sounds like {}; in {} it is written {}.", say.Degree(typed), say.Degree(written), say.Chord(c), say.Degree(written))
}

func sayStrings(on *fret.Tuning, numbers []int) say.Text {
	return say.Of("{}", say.TheStrings(on, numbers...))
}

var (
	sayWhere = say.Of("the strings that double a note")
	saySpare = say.Of("the string that can be spared")
)

// NothingDoubled is the answer that no note is doubled.
var NothingDoubled = say.Of("no note")

// sayDoublingOf names the note that is doubled, by its name in a chord such as "root".
func sayDoublingOf(tone string) say.Text { return say.Of("the {}", say.Words(tone)) }

func sayIsDoubled(note say.Text) say.Text { return say.Of("{} is doubled", note) }

func askDoubled(c theory.Chord) say.Text {
	return say.Of("This is {}. Which of its notes is doubled?", say.Chord(c))
}

func askWhere(c theory.Chord) say.Text {
	return say.Of("This is {}. Which two strings sound the same note?", say.Chord(c))
}

func askSpare(c theory.Chord) say.Text {
	return say.Of("This is {}. Which of these strings can be spared without losing a note of the chord?", say.Chord(c))
}

func sayOnlyOn(v fret.Voicing, tone theory.Interval, on int) say.Text {
	return say.Of("{}, {}, sounds on {} alone.", say.Note(v.Chord.Root.Up(tone)), say.Role(tone), say.TheStrings(v.Tuning, on))
}

func saySilentTone(c theory.Chord, tone theory.Interval) say.Text {
	return say.Of("{}, {}, does not sound.", say.Note(c.Root.Up(tone)), say.Role(tone))
}

// saySounds says what the string with a number sounds.
func saySounds(v fret.Voicing, number int) say.Text {
	s := wording.ToneOn(v, number)
	if s.Fret == fret.Muted {
		return say.Sentence("{} does not sound.", say.TheStrings(v.Tuning, number))
	}
	return say.Sentence("{} sounds {}, {}.", say.TheStrings(v.Tuning, number), say.Note(s.Pitch.Note), say.Role(s.Interval))
}

func sayAlone(v fret.Voicing, number int) say.Text {
	return say.Of("{} No other string does.", saySounds(v, number))
}

func sayPair(on *fret.Tuning, pair [2]int) say.Text { return say.Of("{}", say.Strings(on, pair[:]...)) }

func sayString(on *fret.Tuning, n int) say.Text { return say.Of("{}", say.TheStrings(on, n)) }

// saySpares says which note of a voicing is doubled, and where.
func saySpares(v fret.Voicing) say.Text {
	doubled := v.Doubled()
	if len(doubled) == 0 {
		return say.Of("No note is doubled: every string that sounds has a note of its own.")
	}
	parts := make([]say.Text, len(doubled))
	for i, d := range doubled {
		parts[i] = say.Of("{}, {}, sounds on {}", say.Note(d.Note), say.Role(d.Interval), say.TheStrings(v.Tuning, d.Strings...))
	}
	switch {
	case len(doubled) > 1:
		return say.Of("{}.", say.Clauses(parts...))
	case len(doubled[0].Strings) > 2:
		return say.Of("{}: all but one of them can be spared.", parts[0])
	}
	return say.Of("{}: one of them can be spared.", parts[0])
}

// sayNeeds says which tones of a chord no string sounds that it needs.
func sayNeeds(c theory.Chord, missing []theory.Interval) say.Text {
	needs := make([]say.Text, len(missing))
	for i, tone := range missing {
		needs[i] = say.Of("{} ({})", say.Note(c.Root.Up(tone)), say.Role(tone))
	}
	return say.Of("{} needs {}; no string sounds {}.", say.Chord(c), say.And(needs...), say.Agree{N: len(missing), One: "it", Many: "them"})
}

func sayAnotherShape(s fret.Shape) say.Text {
	return say.Of("Another shape, easy to hold, is {}.", say.Shape(s))
}

func sayHeardAs(s fret.Shape, c theory.Chord) say.Text {
	return say.Of("{}, heard as {}", say.Shape(s), say.Chord(c))
}

func sayCalled(s fret.Shape, c theory.Chord) say.Text {
	return say.Of("{} is {}.", say.Shape(s), say.Titled(c))
}

func sayShapeSounds(s fret.Shape, notes []theory.Note) say.Text {
	return say.Of("{} sounds {}.", say.Shape(s), say.And(say.Notes(notes)...))
}

// sayOtherBass says that another note is lowest than the chord asks for.
func sayOtherBass(v fret.Voicing) say.Text {
	return say.Of("{} has {} in the bass: no note lies below it.", say.Chord(v.Chord), say.Note(v.Chord.Bass))
}

func askBuild(c theory.Chord) say.Text { return say.Of("Build {}.", say.Titled(c)) }

func askSwap(plain, wanted theory.Chord) say.Text {
	return say.Of("This is {}. Make it {} by moving one string.", say.Chord(plain), say.Chord(wanted))
}

func saySwapTarget(a chord.Addition) say.Text {
	return say.Of("{}, by moving one string", wording.Joins(a))
}

// sayUnheld says of a right shape that it is none for a hand.
func sayUnheld(c theory.Chord) say.Text {
	return say.Of("It is {}, though no hand can hold it.", say.Chord(c))
}

func sayOtherFret(on *fret.Tuning, number, was int, want fret.StringTone, c theory.Chord) say.Text {
	return say.Of("For {}, {} is {}, not {}.", say.Chord(c), say.TheStrings(on, number), wording.Stopped(want.Fret), wording.Stopped(was))
}

func sayOtherString(on *fret.Tuning, moved int, want fret.StringTone, c theory.Chord) say.Text {
	return say.Of("Leave {} where it was: for {}, {} is {}.", say.TheStrings(on, moved), say.Chord(c), say.TheStrings(on, want.Number), wording.Stopped(want.Fret))
}

func sayMoveTo(on *fret.Tuning, want fret.StringTone, c theory.Chord) say.Text {
	return say.Of("For {}, {} is {}; all others stay.", say.Chord(c), say.TheStrings(on, want.Number), wording.Stopped(want.Fret))
}

func sayTwoFrets(on *fret.Tuning, one, other fret.StringTone, c theory.Chord) say.Text {
	return say.Of("For {}, {} is {} and {} {}.", say.Chord(c), say.TheStrings(on, one.Number), wording.Stopped(one.Fret), say.TheStrings(on, other.Number), wording.Stopped(other.Fret))
}

func sayEasier(on *fret.Tuning, s fret.Swap) say.Text {
	return say.Of("{} is easier to hold: move {} to fret {}.", say.Shape(s.To), say.TheStrings(on, s.String), say.Number(s.ToFret))
}

func sayStill(s fret.Shape, plain theory.Chord) say.Text {
	return say.Of("{} is still {}: no string has moved.", say.Shape(s), say.Chord(plain))
}

func sayTooManyMoved(n int) say.Text {
	return say.Of("You moved {}; one is enough.", say.Count{N: n, One: "string", Many: "strings"})
}
