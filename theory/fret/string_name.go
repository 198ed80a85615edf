package fret

import (
	"fmt"
	"strings"

	"sparetone/theory"
)

// StringName writes the open string with the given number as players do: its note, in lower case where
// the string is tuned above the one that follows it, as the g of a re-entrant ukulele or the short
// string of a banjo.
func (t *Tuning) StringName(number int) string {
	i := len(t.Strings) - number
	name := t.Strings[i].Note.String()
	if i+1 < len(t.Strings) && t.Strings[i].MIDI() > t.Strings[i+1].MIDI() {
		return strings.ToLower(name[:1]) + name[1:]
	}
	return name
}

// StringCalled is how a string is called in a sentence: its StringName, with low, middle or high before it where other
// strings are of the same letter, so that a guitar has a low E string and a high E string. Where those words do not
// tell it from the others, its number follows: D (4).
func (t *Tuning) StringCalled(number int) string { return t.called(number, t.StringName(number)) }

// StringSpoken is how a string is called, as it is said: a string tuned to E♭ is E flat.
func (t *Tuning) StringSpoken(number int) string {
	said := theory.Spoken(t.Strings[len(t.Strings)-number].Note)
	return t.called(number, t.StringName(number)[:1]+said[1:])
}

// called puts before or after a string's name what tells it from the others.
func (t *Tuning) called(number int, name string) string {
	this := t.Strings[len(t.Strings)-number]
	below, same, others := 0, 0, 0
	for _, s := range t.Strings {
		switch {
		case s.Note != this.Note:
			continue
		case s.MIDI() < this.MIDI():
			below++
		case s.MIDI() == this.MIDI():
			same++
		}
		others++
	}
	switch {
	case others == 1:
		return name
	case same > 1 || others > 3:
		return fmt.Sprintf("%s (%d)", name, number)
	case below == 0:
		return "low " + name
	case below == others-1:
		return "high " + name
	}
	return "middle " + name
}
