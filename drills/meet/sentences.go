package meet

import (
	"strings"

	"sparetone/drills/neck"
	"sparetone/drills/wording"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// All wording of this room stands here and, for what each topic is like, in topics.toml.

// sayIn is what is asked for in a chord: D, the A string.
func sayIn(chord, what say.Text) say.Text { return say.Of("{}, {}", chord, what) }

// sayDoubledIn is which note of a chord is doubled there: Am, the root doubled.
func sayDoubledIn(chord, note say.Text) say.Text { return say.Of("{}, {} doubled", chord, note) }

// sayPlaced is a chord of a progression: chord 2: IV, F.
func sayPlaced(place, chord say.Text) say.Text { return say.Of("{}: {}", place, chord) }

// fretOf is a fret by itself: fret 3, open, muted.
func fretOf(at int) say.Text {
	if at > 0 {
		return say.Of("fret {}", say.Number(at))
	}
	return wording.Stopped(at)
}

// sayMovedString says where the one string that two shapes differ in goes: from fret 2 to fret 1.
func sayMovedString(number int, from, to fret.Voicing) say.Text {
	i := len(from.Shape) - number
	return say.Of("From {} to {} only the {} string moves: {} to {}.",
		say.Chord(from.Chord), say.Chord(to.Chord), say.String{On: from.Tuning, Number: number}, fretOf(from.Shape[i]), fretOf(to.Shape[i]))
}

// sayOtherString says where the one string lies that two shapes of one chord differ in: fret 3 and fret 6.
func sayOtherString(number int, a, b fret.Voicing) say.Text {
	i := len(a.Shape) - number
	return say.Of("Only the {} string differs: {} and {}.", say.String{On: a.Tuning, Number: number}, fretOf(a.Shape[i]), fretOf(b.Shape[i]))
}

// sayHeld is how something is held: C: frets 0003.
func sayHeld(name say.Text, s fret.Shape) say.Text {
	return say.Sentence("{}: frets {}.", name, say.Shape(s))
}

// sayStringByString is which tone of a chord each string that sounds is: F, string by string: 3 5 R 3.
func sayStringByString(name say.Text, tones []theory.Interval) say.Text {
	degrees := make([]say.Degree, len(tones))
	for i, t := range tones {
		degrees[i] = say.Degree(t)
	}
	return say.Sentence("{}, string by string: {}.", name, say.Row(degrees...))
}

// sayHigher says of two notes which is higher: the first is higher.
func sayHigher(which say.Text) say.Text { return say.Of("{} is higher", which) }

// noOvers is the error of a neck that has no chord over another note than its root that only its lowest string tells from the same chord
// over its root.
func noOvers(on *neck.Instrument) error {
	return say.Wrong("no chord of {} differs from itself over another note by one string alone", say.Foreign(on.Name()))
}

// sayLines is some sentences as one text.
func sayLines(lines []say.Text) say.Text {
	facts := make([]say.Fact, len(lines))
	for i, l := range lines {
		facts[i] = l
	}
	return say.Of(strings.TrimSpace(strings.Repeat("{} ", len(lines))), facts...)
}
