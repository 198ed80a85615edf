package harmony

import (
	"sparetone/drills/chord"
	"sparetone/drills/wording"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

var labelChord = say.Of("chord")

var labelNote = say.Of("the note")

var labelRoot = say.Of("the root")

var labelKey = say.Of("key")

var labelGoes = say.Of("where it goes")

func labelWithNote(n theory.Note) say.Text { return say.Of("with {}", say.Note(n)) }

func labelTone(i theory.Interval) say.Text { return say.Of("{}", say.Role(i)) }

func labelChordNumber(n int) say.Text { return say.Of("chord {}", say.Number(n)) }

func sayNotesOf(k *theory.Kind) say.Text { return say.Of("the notes of {}", wording.AChord(k)) }

func sayToneOf(tone, chords string) say.Text {
	return say.Of("the {} of {}, by ear", say.Words(tone), say.Words(chords))
}

func sayTone(tone string) say.Text { return say.Of("the {}", say.Words(tone)) }

func askNotes(c theory.Chord) say.Text { return say.Of("Which notes make up {}?", say.Titled(c)) }

func askTone(k *theory.Kind) say.Text {
	return say.Sentence("{}, then one note of it. Which tone of the chord is it?", wording.AChord(k))
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

var askGoes = say.Of("A root, then a chord on it. Where does the chord most strongly want to go?")

func sayWhereGoes(k *theory.Kind) say.Text { return say.Of("where {} goes", wording.AChord(k)) }

// sayGoing says where a chord goes, in words without an article.
func sayGoing(words string) say.Text { return say.Of("a {}", say.Words(words)) }

func sayWhereItGoes(c theory.Chord) say.Text { return say.Of("then {}", say.Chord(c)) }

func sayOtherGoes(other *theory.Kind) say.Text {
	return say.Of("It is {} that goes that way.", wording.AChord(other))
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

// sayPulls says what moves in a chord; where it goes was said before it.
func sayPulls(c theory.Chord, moves []say.Text) say.Text {
	return say.Of("In {}, {}.", say.Chord(c), say.Clauses(moves...))
}

// sayAlsoAsSus says that a suspended chord has the notes of another, of a kind by its id, on the triad's root.
func sayAlsoAsSus(kind string) func(c, triad theory.Chord) say.Text {
	return func(_, triad theory.Chord) say.Text {
		return say.Of("The same notes are {}, so it can also go to {}, less strongly.", say.Chord(theory.NewChord(triad.Root, chord.Kind(kind))), say.Chord(triad))
	}
}

func sayAlsoSurprising(_, triad theory.Chord) say.Text {
	return say.Of("It can also go to {}, less strongly: that surprises the ear.", say.Chord(triad))
}

func sayAlsoAsSecond(_, triad theory.Chord) say.Text {
	return say.Of("It can also go to {}, less strongly, as the chord on the second degree of a minor key does.", say.Chord(triad))
}

// sayAlsoStaying says that the root of a chord stays, which in the triad that it goes to may be written with another letter.
func sayAlsoStaying(c, triad theory.Chord) say.Text {
	if c.Root != triad.Root {
		return say.Of("It can also go to {}, less strongly: {} stays and is written {} there, and the other notes move.", say.Chord(triad), say.Note(c.Root), say.Note(triad.Root))
	}
	return say.Of("It can also go to {}, less strongly: its root stays, and the other notes move.", say.Chord(triad))
}

// sayProgression names chords by their numerals in a key.
func sayProgression(k theory.Key, chords []theory.Chord) say.Text {
	return say.Of("{}", say.Numerals{Key: k, Chords: chords})
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
	return say.Of("In {}, {} has {}, the raised seventh.", say.Key(k), say.Numeral{Key: k, Chord: c}, say.Note(n))
}

func sayAnswerWouldBe(chords []fret.Voicing) say.Text {
	return say.Of("Your answer would have been {}.", say.Commas(say.Chords(chordsIn(chords))...))
}

// sayWhichHasColour names a target that asks for the chord with a colour, such as "a ninth".
func sayWhichHasColour(colour string) say.Text {
	return say.Of("which chord of a progression has {}", say.Words(colour))
}

func askColour(k theory.Key, chords []theory.Chord) say.Text {
	numerals := make([]say.Numeral, len(chords))
	for i, c := range chords {
		numerals[i] = say.Numeral{Key: k, Chord: c}
	}
	return say.Of("The tonic, then {}. Which chord has a note added, and which note?", say.Commas(numerals...))
}

// sayColour says which chord of a progression, counted from 0, has a colour.
func sayColour(k theory.Key, chords []theory.Chord, place int, colour string) say.Text {
	return say.Of("chord {}, {}, with {}", say.Number(place+1), say.Numeral{Key: k, Chord: chords[place]}, say.Words(colour))
}

func sayColourAlone(place int, colour string) say.Text {
	return say.Of("chord {} with {}", say.Number(place+1), say.Words(colour))
}

func sayColourWas(place int, plain, coloured theory.Chord) say.Text {
	added := coloured.Kind.Formula[len(coloured.Kind.Formula)-1]
	return say.Of("Chord {} was {} with {}, {}, added: {}.", say.Number(place+1), say.Chord(plain), say.Note(coloured.Root.Up(added)), say.Role(added), say.Chord(coloured))
}

// Names of scales, after their tonic.
const (
	harmonicMinor = "harmonic minor"
	naturalMinor  = "natural minor"
)

func askSits(p chordInKey) say.Text {
	return say.Of("{}: which note of the scale, not yet in it, can be added without rubbing?", sayWithin(p))
}

func askRubs(p chordInKey) say.Text {
	return say.Of("{}: which note of the scale rubs against it?", sayWithin(p))
}

// sayWithin is the key and the chord of it that are asked about.
func sayWithin(p chordInKey) say.Text {
	return say.Of("In {}, on the chord {}", p.named, say.Chord(p.chord))
}

func sayTakes(k theory.Key, c theory.Chord) say.Text {
	return say.Of("what {} in a {} key takes without rubbing", say.Numeral{Key: k, Chord: c}, say.Words(k.Mode()))
}

func sayWhatRubs(k theory.Key, c theory.Chord) say.Text {
	return say.Of("what rubs against {} in a {} key", say.Numeral{Key: k, Chord: c}, say.Words(k.Mode()))
}

func sayOtherLetter(p chordInKey, n, own theory.Note) say.Text {
	return say.Of("{} is the right pitch with the wrong letter: in {} it is {}.", say.Note(n), p.named, say.Note(own))
}

func sayWritten(p chordInKey, n, own theory.Note, rest say.Text) say.Text {
	return say.Of("{} is written {} in {}. {}", say.Note(n), say.Note(own), p.named, rest)
}

func sayAlreadyIn(p chordInKey, n theory.Note) say.Text {
	return say.Of("{} is already in the chord {}.", say.Note(n), say.Chord(p.chord))
}

func sayNotOfKey(p chordInKey, n theory.Note) say.Text {
	return say.Of("{} is not a note of {}.", say.Note(n), say.Key(p.key))
}

func sayNaturalSeventh(p chordInKey, n theory.Note) say.Text {
	return say.Of("{} is a note of {}, but not of {}: it is the natural seventh.", say.Note(n), say.Key(p.key), p.named)
}

func sayNotOfScale(p chordInKey, n theory.Note, s theory.Standing) say.Text {
	return say.Of("{} is a note of {}, but not of {}: it is {}.", say.Note(n), say.Key(p.key), p.named, say.Standing(s))
}

func sayRubsAndAdded(p chordInKey, n theory.Note, against theory.Interval) say.Text {
	return say.Of("{}: it rubs, and players add it for that.", above(p.chord, n, against))
}

func sayRubs(p chordInKey, n theory.Note, against theory.Interval) say.Text {
	return say.Of("{}: it rubs, and it is seldom added.", above(p.chord, n, against))
}

func above(c theory.Chord, n theory.Note, against theory.Interval) say.Text {
	return say.Of("{}, {}, lies a semitone above {}, {}", say.Note(n), say.Role(toneIn(c, n)), say.Note(c.Root.Up(against)), say.Role(against))
}

func saySits(p chordInKey, n theory.Note) say.Text {
	return say.Of("{}, {} of the chord {}, is a note of {}, and no note of the chord lies a semitone below it: it sits without rubbing.",
		say.Note(n), say.Role(toneIn(p.chord, n)), say.Chord(p.chord), p.named)
}

func saySitsBriefly(p chordInKey, n theory.Note) say.Text {
	return say.Of("{} is a note of {}, and no note of the chord {} lies a semitone below it.", say.Note(n), p.named, say.Chord(p.chord))
}

func sayRubsBriefly(p chordInKey, n theory.Note, against theory.Interval) say.Text {
	return say.Of("{} lies a semitone above {}, {}: it rubs.", say.Note(n), say.Note(p.chord.Root.Up(against)), say.Role(against))
}

func labelChordWith(c theory.Chord, n theory.Note) say.Text {
	return say.Of("{} with {}", say.Chord(c), say.Note(n))
}

func takesNotes(p chordInKey, sit []theory.Note) say.Text {
	return say.Of("In {} the chord {} takes {} without rubbing", p.named, say.Chord(p.chord), say.And(say.Notes(sit)...))
}

func sayTakesNotes(p chordInKey, sit []theory.Note) say.Text {
	return say.Of("{}.", takesNotes(p, sit))
}

func sayTakesAndRubs(p chordInKey, sit, rubbing []theory.Note) say.Text {
	return say.Of("{}; {} {}.", takesNotes(p, sit), say.And(say.Notes(rubbing)...), say.Agree{N: len(rubbing), One: "rubs", Many: "rub"})
}

// sayAlsoHas adds what a minor key has beside the scale.
func sayAlsoHas(p chordInKey, before say.Text, beside []theory.Note) say.Text {
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

// toneIn is what a note would be in a chord: a second is a ninth.
func toneIn(c theory.Chord, n theory.Note) theory.Interval {
	i := c.Root.To(n)
	if i.Number == 2 {
		i = i.Plus(theory.Octave)
	}
	return i
}

// chordsIn are the chords of some voicings.
func chordsIn(voicings []fret.Voicing) []theory.Chord {
	out := make([]theory.Chord, len(voicings))
	for i, v := range voicings {
		out[i] = v.Chord
	}
	return out
}
