package drills

import (
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// All wording of this room stands here, beside the facts that go into it: what is asked, what is said of an answer, what
// things are called. Names of chords, tones and intervals are those of theory; theory/say prints them.

// What things are called.

// sayUnknown is the answer of whoever does not know.
var sayUnknown = say.Of(Unknown)

func sayKind(k *theory.Kind) say.Text           { return say.Of("{}", say.Kind{Kind: k}) }
func sayInterval(i theory.Interval) say.Text    { return say.Of("{}", say.Interval(i)) }
func sayChord(c theory.Chord) say.Text          { return say.Of("{}", say.Chord(c)) }
func sayInFull(c theory.Chord) say.Text         { return say.Of("{}", say.InFull(c)) }
func sayTitled(c theory.Chord) say.Text         { return say.Of("{}", say.Titled(c)) }
func sayPlain(c theory.Chord) say.Text          { return say.Of("{}, plain", say.Chord(c)) }
func sayNote(n theory.Note) say.Text            { return say.Of("{}", say.Note(n)) }
func sayNotes(notes []theory.Note) say.Text     { return say.Of("{}", say.Row(say.Notes(notes)...)) }
func sayShape(s fret.Shape) say.Text            { return say.Of("{}", say.Shape(s)) }
func sayString(on *fret.Tuning, n int) say.Text { return say.Of("{}", say.TheStrings(on, n)) }

func sayPair(on *fret.Tuning, pair [2]int) say.Text { return say.Of("{}", say.Strings(on, pair[:]...)) }

// aChord is a kind of chord with its article: a minor chord.
func aChord(k *theory.Kind) say.Text { return say.Of("{} chord", say.A(say.Kind{Kind: k})) }

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

// How an answer is typed, to follow the word "type".

var sayTypeNotes = say.Of("the notes, such as F# A Bb")

func sayTypeChoice(choices []Choice) say.Text {
	said := make([]say.Text, len(choices))
	for i, c := range choices {
		said[i] = c.Said
	}
	return say.Of("a number from 1 to {}, or one of: {}", say.Number(len(choices)), say.Alternatives(said...))
}

func sayTypeTones(on *fret.Tuning) say.Text {
	example := []say.Words{"R", "3", "5", "R", "3", "5", "R", "3"}
	n := len(on.Strings)
	return say.Of("what each string is, {} first, such as {}, and x for one that does not sound", say.TheStrings(on, n), say.Row(example[:min(n, len(example))]...))
}

func sayTypeFrets(on *fret.Tuning) say.Text {
	example := []say.Words{"0", "2", "3", "2", "0", "1", "0", "2"}
	n := len(on.Strings)
	return say.Of("a fret for each string, {} first, such as {}, and x for one that is muted", say.TheStrings(on, n), say.Row(example[:min(n, len(example))]...))
}

// What is wrong with an answer, or why there is no question.

func noSuchTarget(id string) error { return say.Wrong("{} is nothing this drill asks", say.Typed(id)) }

func noSwap(on *Instrument, a addition) error {
	return say.Wrong("{} has no shape of {} that becomes {} by one string", say.Foreign(on.Tuning.Name), aChord(a.from()), say.A(say.Kind{Kind: a.to()}))
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

// What may be typed instead.

func sayMoreSwaps(c theory.Chord) say.Text {
	return say.Of("Any other way to make {}, with all its notes, by moving one string is right too.", say.Chord(c))
}

var sayMoreShapes = say.Of("Any other shape of just these notes is right too.")

// What each string of a voicing is, and why it is not another kind of chord: clauses.

func isOn(v fret.Voicing, tone theory.Interval, on []int) say.Text {
	return say.Of("{}, {}, is on {}", say.Note(v.Chord.Root.Up(tone)), say.Role(tone), say.TheStrings(v.Tuning, on...))
}

func sayHasInstead(v fret.Voicing, tone theory.Interval, on []int, other *theory.Kind, instead theory.Interval) say.Text {
	return say.Of("{}; {} has {}, {}.", isOn(v, tone, on), aChord(other), say.Note(v.Chord.Root.Up(instead)), say.Role(instead))
}

func sayHasNoSuch(v fret.Voicing, tone theory.Interval, on []int, other *theory.Kind) say.Text {
	return say.Of("{}; {} has no such note.", isOn(v, tone, on), aChord(other))
}

func sayHasNone(v fret.Voicing, tone theory.Interval, on []int, other *theory.Kind) say.Text {
	return say.Of("{}; {} has no {}.", isOn(v, tone, on), aChord(other), say.Ordinal(tone))
}

func sayWouldHave(v fret.Voicing, other *theory.Kind, tone theory.Interval) say.Text {
	return say.Of("{} would have {}, {}; no string sounds it.", aChord(other), say.Note(v.Chord.Root.Up(tone)), say.Role(tone))
}

// sayEachTone says what some notes of a chord are in it.
func sayEachTone(c theory.Chord, tones []theory.Interval) say.Text {
	out := make([]say.Text, len(tones))
	for i, tone := range tones {
		out[i] = say.Of("{} is {}", say.Note(c.Root.Up(tone)), say.Role(tone))
	}
	return say.Of("{}.", say.And(out...))
}

// sayTones says what each note that a voicing sounds is in its chord, from the root up.
func sayTones(v fret.Voicing) say.Text { return sayEachTone(v.Chord, soundedTones(v)) }

// sayLeftOut says which tones of a chord no string sounds; zero if all do.
func sayLeftOut(v fret.Voicing) say.Text {
	missing := v.Missing()
	if len(missing) == 0 {
		return say.Text{}
	}
	return say.Sentence("{} {} left out.", say.And(say.Roles(missing)...), say.Agree{N: len(missing), One: "is", Many: "are"})
}

// sayIsNotes says which notes a chord is, or, where some are left out, which of it sound.
func sayIsNotes(v fret.Voicing) say.Text {
	var notes []theory.Note
	for _, tone := range soundedTones(v) {
		notes = append(notes, v.Chord.Root.Up(tone))
	}
	is := say.Words("is")
	if len(v.Missing()) > 0 {
		is = "sounds as"
	}
	return say.Of("{} {} {}.", say.Chord(v.Chord), is, say.And(say.Notes(notes)...))
}

// saySpares says which note of a voicing is doubled, and where.
func saySpares(v fret.Voicing) say.Text {
	doubled := v.Doubled()
	if len(doubled) == 0 {
		return say.Of("No note is doubled: every string has a note of its own.")
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

func sayNotIn(c theory.Chord, foreign []theory.Note) say.Text {
	return say.Of("{} {} not in the chord {}.", say.And(say.Notes(foreign)...), say.Agree{N: len(foreign), One: "is", Many: "are"}, say.Chord(c))
}

// Labels of sounds.

var (
	labelPlain     = say.Of("plain")
	labelChanged   = say.Of("changed")
	labelFirst     = say.Of("first")
	labelSecond    = say.Of("second")
	labelChord     = say.Of("chord")
	labelNote      = say.Of("note")
	labelRoot      = say.Of("root")
	labelKey       = say.Of("key")
	labelGoes      = say.Of("where it goes")
	labelAnswer    = say.Of("your answer")
	labelYours     = say.Of("your shape")
	labelBothNotes = say.Of("the two notes")
)

func labelWithout(v fret.Voicing, number int) say.Text {
	return say.Of("{} without {}", say.Chord(v.Chord), say.TheStrings(v.Tuning, number))
}
func labelWith(a addition) say.Text         { return say.Of("with {}", sayAddition(a)) }
func labelWithNote(n theory.Note) say.Text  { return say.Of("with {}", say.Note(n)) }
func labelSecondAs(k *theory.Kind) say.Text { return say.Of("the second as {}", aChord(k)) }
func labelTone(i theory.Interval) say.Text  { return say.Of("{}", say.Role(i)) }
func labelChordNumber(n int) say.Text       { return say.Of("chord {}", say.Number(n)) }

// interval-ear

var (
	askRising   = say.Of("Two notes, going up. Which interval is it?")
	askFalling  = say.Of("Two notes, going down. Which interval is it?")
	askTogether = say.Of("Two notes together. Which interval is it?")
)

func sayUp(s spot, i theory.Interval) say.Text {
	return say.Of("{} up to {} is {}: {}.", say.Pitch(s.low), say.Pitch(s.high), say.A(say.Interval(i)), semitones(i.Semitones))
}

func sayDown(s spot, i theory.Interval) say.Text {
	return say.Of("{} down to {} is {}: {}.", say.Pitch(s.high), say.Pitch(s.low), say.A(say.Interval(i)), semitones(i.Semitones))
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

// chord-ear

var (
	askKind      = say.Of("Which kind of chord is it?")
	askKindAfter = say.Of("A plain chord, then another on the same note. Which kind is the second?")
)

func sayBothNames(one, other *theory.Kind) say.Text {
	return say.Of("The same notes make {} on one root and {} on another: both names are right.", aChord(one), aChord(other))
}

// added-ear

var askCameIn = say.Of("A plain chord, then one string changes. Which note came in?")

func askCameInAlone(plain *theory.Kind) say.Text {
	return say.Of("This was {} until one string changed. Which note came in?", aChord(plain))
}

// sayAddition is what comes in: the ninth, or the fourth in place of the third.
func sayAddition(a addition) say.Text {
	return say.Of("the {}", say.Words(a.words()))
}

// sayJoins says what a plain chord gains: the ninth added to a major chord, or the fourth for the third of one.
func sayJoins(a addition) say.Text {
	if a.suspends {
		return say.Of("the {} in place of the third of {}", say.Words(a.note), aChord(a.from()))
	}
	return say.Of("the {} added to {}", say.Words(a.note), aChord(a.from()))
}

func sayAddedTarget(t addedTask) say.Text {
	if t.alone {
		return say.Of("{}, heard on its own", sayJoins(t.addition))
	}
	return sayJoins(t.addition)
}

// sayMoved says what a swap did: which string, from what to what, and what was given up.
func sayMoved(s fret.Swap, before, after fret.Voicing) say.Text {
	from, to := tone(before, s.String), tone(after, s.String)
	rest := say.Of("No other string sounds {}.", say.Note(from.Pitch.Note))
	if s.Spare {
		rest = say.Of("{} still sounds on {}.", say.Note(from.Pitch.Note), say.TheStrings(after.Tuning, stringsWith(after, from.Interval)...))
	}
	return say.Sentence("{} went from {}, {}, to {}, {}: {} becomes {}. {}", say.TheStrings(after.Tuning, s.String),
		say.Note(from.Pitch.Note), say.Role(from.Interval), say.Note(to.Pitch.Note), say.Role(to.Interval), say.Chord(before.Chord), say.Chord(after.Chord), rest)
}

// sayWent says briefly what a swap did.
func sayWent(s fret.Swap, before, after fret.Voicing) say.Text {
	return say.Sentence("{} went from {} to {}: {} becomes {}.", say.TheStrings(after.Tuning, s.String),
		say.Note(tone(before, s.String).Pitch.Note), say.Note(tone(after, s.String).Pitch.Note), say.Chord(before.Chord), say.Chord(after.Chord))
}

// same-or-not

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

func askWhichHas(a addition) say.Text {
	return say.Of("Two chords. Which of them has {}?", sayAddition(a))
}

// sayTwoNotesWere says which of two notes was higher, and how far.
func sayTwoNotesWere(n twoNotes) say.Text {
	switch {
	case n.interval == theory.Unison:
		return say.Of("Both are {}, on two strings.", say.Pitch(n.low))
	case n.falls:
		return say.Of("The first is higher: {}, then {}, {} lower.", say.Pitch(n.high), say.Pitch(n.low), semitones(n.interval.Semitones))
	}
	return say.Of("The second is higher: {}, then {}, {} higher.", say.Pitch(n.low), say.Pitch(n.high), semitones(n.interval.Semitones))
}

// sayIsHigher says which of two notes is higher: of notes that fall the first.
func sayIsHigher(falls bool) say.Text {
	if falls {
		return say.Of("the first is higher")
	}
	return say.Of("the second is higher")
}

func saySameTarget(t sameTask) say.Text {
	kinds := t.kinds()
	if t.which {
		return say.Of("which of two chords has {}", sayJoins(t.added))
	}
	return say.Of("{} or {}", say.Kind{Kind: kinds[0]}, say.Kind{Kind: kinds[1]})
}

func sayFirstIs(c theory.Chord) say.Text  { return say.Of("The first: {}", say.Titled(c)) }
func saySecondIs(c theory.Chord) say.Text { return say.Of("The second: {}", say.Titled(c)) }

func sayBothAre(k *theory.Kind) say.Text { return say.Of("Both are {} chords.", say.Kind{Kind: k}) }

func sayFirstAndSecond(first, second *theory.Kind) say.Text {
	return say.Of("The first is {}, the second {}.", aChord(first), aChord(second))
}

func sayInSecond(clause say.Text) say.Text { return say.Of("In the second chord, {}", clause) }

func sayByAnswer(c theory.Chord) say.Text {
	return say.Of("By your answer the second chord would be {}: hear both.", say.Chord(c))
}

// shape-name

var askChord = say.Of("Which chord is this?")

func sayAnotherName(c theory.Chord) say.Text {
	return say.Of("{} is another right name for these notes.", say.Chord(c))
}

// sayNamed is a chord with its name in words, and the other names of the same shape that are as right.
func sayNamed(c theory.Chord, others []theory.Chord) say.Text {
	if len(others) == 0 {
		return sayTitled(c)
	}
	return say.Of("{}, also {}", say.Chord(c), say.And(say.Chords(others)...))
}

// sayAlsoCalled says which other names of a shape are as right.
func sayAlsoCalled(others []theory.Chord) say.Text {
	are := say.Words("both names are")
	if len(others) > 1 {
		are = "all these names are"
	}
	return say.Of("The same notes are {}: {} right.", say.And(say.Chords(others)...), are)
}

// shape-tones

func askStrings(c theory.Chord) say.Text {
	return say.Of("This is {}. What is each string?", say.Chord(c))
}

func sayStringIs(on *fret.Tuning, s fret.StringTone, taken theory.Interval) say.Text {
	return say.Sentence("{} sounds {}: {}, not {}.", say.TheStrings(on, s.Number), say.Note(s.Pitch.Note), say.Role(s.Interval), say.Role(taken))
}

func sayWrittenAs(c theory.Chord, typed, written theory.Interval) say.Text {
	return say.Of("{} sounds like {}; in {} it is written {}.", say.Degree(typed), say.Degree(written), say.Chord(c), say.Degree(written))
}

// doubled

func sayStrings(on *fret.Tuning, numbers []int) say.Text {
	return say.Of("{}", say.TheStrings(on, numbers...))
}

var (
	sayWhere = say.Of("the strings that double a note")
	saySpare = say.Of("the string that can be spared")
)

func sayDoubling(d doubling) say.Text {
	if d.numbers == nil {
		return say.Of("no note")
	}
	return say.Of("the {}", say.Words(d.id))
}

func sayIsDoubled(d doubling) say.Text { return say.Of("{} is doubled", sayDoubling(d)) }

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
	s := tone(v, number)
	if s.Fret == fret.Muted {
		return say.Sentence("{} does not sound.", say.TheStrings(v.Tuning, number))
	}
	return say.Sentence("{} sounds {}, {}.", say.TheStrings(v.Tuning, number), say.Note(s.Pitch.Note), say.Role(s.Interval))
}

func sayAlone(v fret.Voicing, number int) say.Text {
	return say.Of("{} No other string does.", saySounds(v, number))
}

// build and swap

func askBuild(c theory.Chord) say.Text { return say.Of("Build {}.", say.Titled(c)) }

func askSwap(plain, wanted theory.Chord) say.Text {
	return say.Of("This is {}. Make it {} by moving one string.", say.Chord(plain), say.Chord(wanted))
}

func saySwapTarget(a addition) say.Text { return say.Of("{}, by moving one string", sayJoins(a)) }

// sayUnheld says of a right shape that it is none for a hand.
func sayUnheld(c theory.Chord) say.Text {
	return say.Of("It is {}, though no hand can hold it.", say.Chord(c))
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

func sayOtherFret(on *fret.Tuning, number, was int, want fret.StringTone, c theory.Chord) say.Text {
	return say.Sentence("{} makes {} {}, not {}.", say.TheStrings(on, number), say.Chord(c), Stopped(want.Fret), Stopped(was))
}

func sayOtherString(on *fret.Tuning, moved int, want fret.StringTone, c theory.Chord) say.Text {
	return say.Of("Leave {} where it was: {} {} makes {}.", say.TheStrings(on, moved), say.TheStrings(on, want.Number), Stopped(want.Fret), say.Chord(c))
}

func sayMoveTo(on *fret.Tuning, want fret.StringTone, c theory.Chord) say.Text {
	return say.Sentence("{} {} makes {}; all others stay.", say.TheStrings(on, want.Number), Stopped(want.Fret), say.Chord(c))
}

func sayTwoFrets(on *fret.Tuning, one, other fret.StringTone, c theory.Chord) say.Text {
	return say.Of("For {}, {} is {} and {} {}.", say.Chord(c), say.TheStrings(on, one.Number), Stopped(one.Fret), say.TheStrings(on, other.Number), Stopped(other.Fret))
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

func sayEasier(on *fret.Tuning, s fret.Swap) say.Text {
	return say.Of("{} is easier to hold: move {} to fret {}.", say.Shape(s.To), say.TheStrings(on, s.String), say.Number(s.ToFret))
}

func sayStill(s fret.Shape, plain theory.Chord) say.Text {
	return say.Of("{} is still {}: no string has moved.", say.Shape(s), say.Chord(plain))
}

func sayTooManyMoved(n int) say.Text {
	return say.Of("You moved {}; one is enough.", say.Count{N: n, One: "string", Many: "strings"})
}

// What a swap adds, on the bench and in lists.

func sayRubsAgainst(n theory.Note) say.Text { return say.Of("rubs against {}", say.Note(n)) }
func sayNotInKey(k theory.Key) say.Text     { return say.Of("not in {}", say.Key(k)) }
func sayOfKey(k theory.Key) say.Text        { return say.Of("of {}", say.Key(k)) }
func sayLowest(added theory.Interval) say.Text {
	return say.Of("the {} is the lowest note", say.Degree(added))
}

func sayStandingOf(s theory.Standing, k theory.Key) say.Text {
	return say.Of("{} of {}", say.Standing(s), say.Key(k))
}

func saySoundsAs(n, inKey theory.Note, of say.Text) say.Text {
	return say.Of("{}, which sounds {}, is {}", say.Note(n), say.Note(inKey), of)
}

// spell

func sayNotesOf(k *theory.Kind) say.Text { return say.Of("the notes of {}", aChord(k)) }

func sayToneOf(t chordTone, g *toneGroup) say.Text {
	return say.Of("the {} of {}, heard", say.Words(t.name), say.Words(g.name))
}

func sayTone(t chordTone) say.Text { return say.Of("the {}", say.Words(t.name)) }

func askNotes(c theory.Chord) say.Text { return say.Of("Which notes make up {}?", say.Titled(c)) }

func askTone(k *theory.Kind) say.Text {
	return say.Sentence("{}, then one note of it. Which tone of the chord is it?", aChord(k))
}

func sayShapeLeavesOut(s fret.Shape, missing []theory.Interval) say.Text {
	return say.Of("The shape {} leaves out {}.", say.Shape(s), say.And(say.Roles(missing)...))
}

func sayWrongLetter(c theory.Chord, n theory.Note, tone theory.Interval) say.Text {
	own := c.Root.Up(tone)
	return say.Of("{} is the right pitch with the wrong letter: {} of {} is written with the letter {}, so {}.",
		say.Note(n), say.Role(tone), say.Note(c.Root), say.Words(own.Letter.String()), say.Note(own))
}

func sayMissed(notes []theory.Note) say.Text {
	return say.Of("{} {} missing.", say.And(say.Notes(notes)...), say.Agree{N: len(notes), One: "was", Many: "were"})
}

func sayNoteWas(v fret.Voicing, s fret.StringTone) say.Text {
	return say.Of("The note was {}, on {}: {} of {}.", say.Note(s.Pitch.Note), say.TheStrings(v.Tuning, s.Number), say.Role(s.Interval), say.Chord(v.Chord))
}

func sayToneIsOn(on *fret.Tuning, s fret.StringTone) say.Text {
	return say.Sentence("{} is {}, on {}.", say.Role(s.Interval), say.Note(s.Pitch.Note), say.TheStrings(on, s.Number))
}

// resolve

var askGoes = say.Of("A root, then a chord on it. Where does the chord most strongly want to go?")

func sayWhereGoes(k *theory.Kind) say.Text   { return say.Of("where {} goes", aChord(k)) }
func sayGoing(g goingRow) say.Text           { return say.Of("a {}", say.Words(g.words)) }
func sayWhereItGoes(c theory.Chord) say.Text { return say.Of("{}, where it goes", say.Chord(c)) }
func sayOtherGoes(other *theory.Kind) say.Text {
	return say.Of("It is {} that goes that way.", aChord(other))
}

func sayRises(from theory.Note, tone theory.Interval, to theory.Note) say.Text {
	return say.Of("{}, {}, rises to {}", say.Note(from), say.Role(tone), say.Note(to))
}

func sayFalls(from theory.Note, tone theory.Interval, to theory.Note) say.Text {
	return say.Of("{}, {}, falls to {}", say.Note(from), say.Role(tone), say.Note(to))
}

func sayGoesTo(c, goal theory.Chord, moves []say.Text) say.Text {
	return say.Of("{} goes to {}: {}.", say.Chord(c), say.Chord(goal), say.Clauses(moves...))
}

// Where else a chord may go: to a triad.

// sayAlsoAsSus says that a suspended chord has the notes of another, of a kind by its id, on the triad's root.
func sayAlsoAsSus(kind string) func(theory.Chord) say.Text {
	return func(triad theory.Chord) say.Text {
		return say.Of("The same notes are {}, so it can also go to {}, less strongly.", say.Chord(theory.NewChord(triad.Root, mustKind(kind))), say.Chord(triad))
	}
}

func sayAlsoSurprising(triad theory.Chord) say.Text {
	return say.Of("It can also go to {}, less strongly: that surprises the ear.", say.Chord(triad))
}

func sayAlsoAsSecond(triad theory.Chord) say.Text {
	return say.Of("It can also go to {}, less strongly, as the chord on the second degree of a minor key does.", say.Chord(triad))
}

func sayAlsoStaying(triad theory.Chord) say.Text {
	return say.Of("It can also go to {}, less strongly: its root stays, and the other notes move.", say.Chord(triad))
}

// progression-ear

// sayProgression is a progression of the table by its numerals.
func sayProgression(n int) say.Text {
	k := theory.Key{Minor: progressions[n].minor}
	return say.Of("{}", say.Numerals{Key: k, Chords: chordsOf(n, k)})
}

func askProgression(k theory.Key, chords int) say.Text {
	return say.Of("The tonic of a {} key, then {} chords. Which are they?", say.Words(k.Mode()), say.Number(chords))
}

func sayNumeralAnd(k theory.Key, c theory.Chord) say.Text {
	return say.Of("{}, {}", say.Numeral{Key: k, Chord: c}, say.Chord(c))
}

// sayInKey says what each chord is in the key, and which were heard.
func sayInKey(k theory.Key, each []theory.Chord, heard []fret.Voicing) say.Text {
	are := make([]say.Text, len(each))
	for i, c := range each {
		are[i] = say.Of("{} is {}", say.Numeral{Key: k, Chord: c}, say.Chord(c))
	}
	return say.Of("In {}, {}. You heard {}.", say.Key(k), say.And(are...), say.Commas(say.Chords(chordsIn(heard))...))
}

func sayHeardInKey(k theory.Key, heard []fret.Voicing) say.Text {
	return say.Of("You heard {} in {}.", say.Commas(say.Chords(chordsIn(heard))...), say.Key(k))
}

func sayHeardNot(heard, answered []fret.Voicing) say.Text {
	return say.Of("You heard {}; your answer would be {}.", say.Commas(say.Chords(chordsIn(heard))...), say.Commas(say.Chords(chordsIn(answered))...))
}

func sayRaised(k theory.Key, c theory.Chord, n theory.Note) say.Text {
	return say.Of("{} has {}, the raised seventh of {}.", say.Numeral{Key: k, Chord: c}, say.Note(n), say.Key(k))
}

func sayAnswerWouldBe(chords []fret.Voicing) say.Text {
	return say.Of("Your answer would have been {}.", say.Commas(say.Chords(chordsIn(chords))...))
}

func sayWhichHasColour(c colourRow) say.Text {
	return say.Of("which chord of a progression has {}", say.Words(c.words))
}

func askColour(k theory.Key, chords []theory.Chord) say.Text {
	numerals := make([]say.Numeral, len(chords))
	for i, c := range chords {
		numerals[i] = say.Numeral{Key: k, Chord: c}
	}
	return say.Of("The tonic, then {}. Which chord has a note added, and which note?", say.Commas(numerals...))
}

func sayColour(k theory.Key, chords []theory.Chord, a colourAt) say.Text {
	return say.Of("chord {}, {}, with {}", say.Number(a.chord+1), say.Numeral{Key: k, Chord: chords[a.chord]}, say.Words(colours[a.colour].words))
}

func sayColourAlone(a colourAt) say.Text {
	return say.Of("chord {} with {}", say.Number(a.chord+1), say.Words(colours[a.colour].words))
}

func sayColourWas(place int, plain, coloured theory.Chord) say.Text {
	added := coloured.Kind.Formula[len(coloured.Kind.Formula)-1]
	return say.Of("Chord {} was {} with {}, {}, added: {}.", say.Number(place+1), say.Chord(plain), say.Note(coloured.Root.Up(added)), say.Role(added), say.Chord(coloured))
}

// key-add

// Names of scales, after their tonic.
const (
	harmonicMinor = "harmonic minor"
	naturalMinor  = "natural minor"
)

func askSits(p laid) say.Text {
	return say.Of("{}: which note of the scale sits without rubbing?", sayWithin(p))
}

func askRubs(p laid) say.Text {
	return say.Of("{}: which note of the scale rubs against it?", sayWithin(p))
}

// sayWithin is the key and the chord of it that are asked about.
func sayWithin(p laid) say.Text { return say.Of("In {}, on the chord {}", p.named, say.Chord(p.chord)) }

func sayTakes(k theory.Key, c theory.Chord) say.Text {
	return say.Of("what {} in a {} key takes without rubbing", say.Numeral{Key: k, Chord: c}, say.Words(k.Mode()))
}

func sayWhatRubs(k theory.Key, c theory.Chord) say.Text {
	return say.Of("what rubs against {} in a {} key", say.Numeral{Key: k, Chord: c}, say.Words(k.Mode()))
}

func sayOtherLetter(p laid, n, own theory.Note) say.Text {
	return say.Of("{} is the right pitch with the wrong letter: in {} it is {}.", say.Note(n), p.named, say.Note(own))
}

func sayWritten(p laid, n, own theory.Note, rest say.Text) say.Text {
	return say.Of("{} is written {} in {}. {}", say.Note(n), say.Note(own), p.named, rest)
}

func sayAlreadyIn(p laid, n theory.Note) say.Text {
	return say.Of("{} is already in the chord {}.", say.Note(n), say.Chord(p.chord))
}

func sayNotOfKey(p laid, n theory.Note) say.Text {
	return say.Of("{} is not a note of {}.", say.Note(n), say.Key(p.key))
}

func sayNaturalSeventh(p laid, n theory.Note) say.Text {
	return say.Of("{} is a note of {}, but not of {}: it is the natural seventh.", say.Note(n), say.Key(p.key), p.named)
}

func sayNotOfScale(p laid, n theory.Note, s theory.Standing) say.Text {
	return say.Of("{} is a note of {}, but not of {}: it is {}.", say.Note(n), say.Key(p.key), p.named, say.Standing(s))
}

func sayRubsAndAdded(p laid, n theory.Note, against theory.Interval) say.Text {
	return say.Of("{}: it rubs, and players add it for that.", above(p.chord, n, against))
}

func sayRubs(p laid, n theory.Note, against theory.Interval) say.Text {
	return say.Of("{}: it rubs, and it is seldom added.", above(p.chord, n, against))
}

func above(c theory.Chord, n theory.Note, against theory.Interval) say.Text {
	return say.Of("{}, {}, lies a semitone above {}, {}", say.Note(n), say.Role(toneIn(c, n)), say.Note(c.Root.Up(against)), say.Role(against))
}

func saySits(p laid, n theory.Note) say.Text {
	return say.Of("{}, {} of the chord {}, is a note of {}, and no note of the chord lies a semitone below it: it sits without rubbing.",
		say.Note(n), say.Role(toneIn(p.chord, n)), say.Chord(p.chord), p.named)
}

func saySitsBriefly(p laid, n theory.Note) say.Text {
	return say.Of("{} is a note of {}, and no note of {} lies a semitone below it.", say.Note(n), p.named, say.Chord(p.chord))
}

func sayRubsBriefly(p laid, n theory.Note, against theory.Interval) say.Text {
	return say.Of("{} lies a semitone above {}, {}: it rubs.", say.Note(n), say.Note(p.chord.Root.Up(against)), say.Role(against))
}

func labelChordWith(c theory.Chord, n theory.Note) say.Text {
	return say.Of("{} with {}", say.Chord(c), say.Note(n))
}

func takesNotes(p laid, sit []theory.Note) say.Text {
	return say.Of("In {} the chord {} takes {} without rubbing", p.named, say.Chord(p.chord), say.And(say.Notes(sit)...))
}

func sayTakesNotes(p laid, sit []theory.Note) say.Text { return say.Of("{}.", takesNotes(p, sit)) }

func sayTakesAndRubs(p laid, sit, rubbing []theory.Note) say.Text {
	return say.Of("{}; {} {}.", takesNotes(p, sit), say.And(say.Notes(rubbing)...), say.Agree{N: len(rubbing), One: "rubs", Many: "rub"})
}

// sayAlsoHas adds what a minor key has beside the scale.
func sayAlsoHas(p laid, before say.Text, beside []theory.Note) say.Text {
	notes := make([]say.Text, len(beside))
	for i, n := range beside {
		notes[i] = say.Of("{}, {}", say.Note(n), say.Standing(p.key.Standing(n)))
	}
	has := notes[0]
	for _, n := range notes[1:] {
		has = say.Of("{}, and {}", has, n)
	}
	return say.Of("{} {} also has {}.", before, say.Key(p.key), has)
}

// The bench

// Altered is said, in a clause, of a chord that alt asks for.
var Altered = say.Of("alt means that the fifth and the ninth are both altered, in whichever way the player chooses; this is the one with {} and {}",
	say.Degree(theory.Interval{Number: 5, Semitones: 8}), say.Degree(theory.Interval{Number: 9, Semitones: 15}))

var (
	sayNoneDoubled = say.Of("No note is doubled.")
	sayAllMuted    = say.Of("Every string is muted.")
)

func sayAlso(names []theory.Chord) say.Text {
	return say.Of("Also {}.", say.Commas(say.Chords(names)...))
}

func sayLeft(tones []theory.Interval) say.Text {
	return say.Of("Left out: {}.", say.Commas(say.Roles(tones)...))
}

func sayOneSpare(on *fret.Tuning, d fret.Doubling) say.Text {
	where := say.Of("{}, {}, sounds on {}", say.Note(d.Note), say.Role(d.Interval), say.TheStrings(on, d.Strings...))
	if len(d.Strings) > 2 {
		return say.Of("{}: all but one are spare.", where)
	}
	return say.Of("{}: one of the two is spare.", where)
}

func sayCameFrom(c theory.Chord) say.Text { return say.Of("It came from {}.", say.Chord(c)) }

func sayAloneNoChord(n theory.Note) say.Text {
	return say.Of("{} alone makes no chord.", say.Note(n))
}

func sayNoName(notes []theory.Note) say.Text {
	return say.Of("{} together have no name.", say.And(say.Notes(notes)...))
}
