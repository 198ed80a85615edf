package bench

import (
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

func sayRubsAgainst(n theory.Note) say.Text { return say.Of("rubs against {}", say.Note(n)) }

func sayNotInKey(k theory.Key) say.Text { return say.Of("not in {}", say.Key(k)) }

func sayOfKey(k theory.Key) say.Text { return say.Of("of {}", say.Key(k)) }

func sayLowest(added theory.Interval) say.Text {
	return say.Of("the {} is the lowest note", say.Degree(added))
}

func sayStandingOf(s theory.Standing, k theory.Key) say.Text {
	return say.Of("{} of {}", say.Standing(s), say.Key(k))
}

func saySoundsAs(n, inKey theory.Note, of say.Text) say.Text {
	return say.Of("{}, which sounds {}, is {}", say.Note(n), say.Note(inKey), of)
}

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

func sayTakePlain(v fret.Voicing) say.Text {
	return say.Of("Hold {}, {}, and play it slowly, string by string, and then all at once.", say.Chord(v.Chord), say.Shape(v.Shape))
}

func sayTakeColoured(plain fret.Voicing, s fret.Swap) say.Text {
	on := say.String{On: plain.Tuning, Number: s.String}
	var move say.Text
	switch {
	case s.ToFret == 0:
		move = say.Of("take the finger off the {} string", on)
	case s.FromFret == 0:
		move = say.Of("put a finger on the {} string at fret {}", on, say.Number(s.ToFret))
	default:
		move = say.Of("move the finger on the {} string from fret {} to fret {}", on, say.Number(s.FromFret), say.Number(s.ToFret))
	}
	return say.Of("Hold {}, {}, and {}: {}.", say.Chord(plain.Chord), say.Shape(s.From), move, say.Shape(s.To))
}

// sayGivesWay says what becomes of a note; stay is on how many other strings it still sounds.
func sayGivesWay(before, after fret.StringTone, stay int) say.Text {
	becomes := say.Of("One {} becomes {}, {}", say.Note(before.Pitch.Note), say.Note(after.Pitch.Note), say.Role(after.Interval))
	switch {
	case stay == 1:
		return say.Of("{}; another {} stays.", becomes, say.Note(before.Pitch.Note))
	case stay > 1:
		return say.Of("{}; {} stay.", becomes, say.Count{N: stay, Many: "others"})
	}
	return say.Of("{}, {}, becomes {}, {}.", say.Note(before.Pitch.Note), say.Role(before.Interval), say.Note(after.Pitch.Note), say.Role(after.Interval))
}
