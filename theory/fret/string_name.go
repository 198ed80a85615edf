package fret

import "strings"

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
