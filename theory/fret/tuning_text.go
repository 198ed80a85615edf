package fret

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"sparetone/theory"
)

// typedFrets is how long the neck of a typed tuning is taken to be: hardly any is longer.
const typedFrets = 24

// typedScale is how long the strings of a typed tuning are taken to be, in mm: as a guitar's, so that nothing is asked of
// the hand that it can only do on a shorter neck.
const typedScale = 650

// maxStrings is the most strings a typed tuning may have.
const maxStrings = 8

// lowestString and highestString are the lowest and highest pitches that an open string may have: MIDI numbers of A0 and C8, the ends of a piano.
const lowestString, highestString = 21, 108

// ParseTuning reads a name from the table, or strings in playing order: with octaves (G4 C4 E4 A4), or
// without (gCEA). Without octaves the last string lies in octave 4, the strings in capitals ascend to
// it, and those in lower case are re-entrant, in octave 4 as well; but strings that a tuning of the
// table has, such as EADG, mean that tuning, in lower case throughout as well. The beginning of a name, such as ba, is no tuning, though its
// letters are notes, unless it is in capitals throughout. The error says what is wrong and what would be right.
func ParseTuning(s string) (*Tuning, error) {
	s = strings.TrimSpace(s)
	strs := compact.Replace(s)
	if t := byName(s, strs); t != nil {
		return t, nil
	}
	if whole := begunWith(s); whole != nil && s != strings.ToUpper(s) {
		return nil, fmt.Errorf("tuning %q is only the beginning of %s; write the name whole, or strings such as gCEA or G4 C4 E4 A4", s, strings.Join(whole, ", "))
	}
	pitches, err := parseStrings(strs)
	if err != nil {
		return nil, fmt.Errorf("tuning %q: %w; write a name such as ukulele, or strings such as gCEA or G4 C4 E4 A4", theory.Clip(s), err)
	}
	for _, t := range tunings {
		if slices.Equal(t.Strings, pitches) {
			return t, nil
		}
	}
	var typed, printed []string
	for _, p := range pitches {
		typed = append(typed, fmt.Sprintf("%s%d", p.Note.ASCII(), p.Octave))
		printed = append(printed, p.String())
	}
	return &Tuning{
		Name: strings.Join(typed, " "), Title: "strings " + strings.Join(printed, " "), Strings: pitches, Frets: typedFrets, Scale: typedScale,
	}, nil
}

// byName finds a tuning of the table by a name, or by its strings without octaves; nil if none has them.
func byName(name, strs string) *Tuning {
	named := func(a alias) bool { return strings.EqualFold(a.typed, name) }
	exact := func(a alias) bool { return a.typed == strs }
	lower := func(a alias) bool { return strings.ToLower(a.typed) == strs }
	if i := slices.IndexFunc(otherNames, named); i >= 0 {
		name = otherNames[i].name
	} else if i := slices.IndexFunc(asStrings, exact); i >= 0 {
		name = asStrings[i].name
	} else if i := slices.IndexFunc(asStrings, lower); i >= 0 {
		name = asStrings[i].name
	}
	for _, t := range tunings {
		if strings.EqualFold(t.Name, name) {
			return t
		}
	}
	return nil
}

// begunWith lists the names of tunings that begin with a text, in the order of the table and then the other names; nil if none does.
func begunWith(text string) (names []string) {
	begins := func(name string) bool {
		return text != "" && len(text) < len(name) && strings.EqualFold(name[:len(text)], text)
	}
	for _, t := range tunings {
		if begins(t.Name) {
			names = append(names, t.Name)
		}
	}
	for _, a := range otherNames {
		if begins(a.typed) {
			names = append(names, a.typed)
		}
	}
	return names
}

// compact writes strings without what may stand between them.
var compact = strings.NewReplacer(" ", "", "\t", "", ",", "", "♯", "#", "♭", "b")

// parseStrings reads open strings that follow one another.
func parseStrings(s string) ([]theory.Pitch, error) {
	var (
		pitches []theory.Pitch
		lower   []bool
		octaves int
	)
	for s != "" {
		if len(pitches) == maxStrings {
			return nil, fmt.Errorf("more than %d strings", maxStrings)
		}
		n := 1 // a letter, its accidentals, its octave
		for n < len(s) && strings.IndexByte("#bx", s[n]) >= 0 {
			n++
		}
		note, err := theory.ParseNote(strings.ToUpper(s[:1]) + s[1:n])
		if err != nil {
			return nil, fmt.Errorf("%q is not a note: a note is a letter from A to G with # or b, such as F# or Bb", theory.Clip(s[:n]))
		}
		p := theory.Pitch{Note: note, Octave: 4}
		if n < len(s) && s[n] >= '0' && s[n] <= '9' {
			p.Octave = int(s[n] - '0')
			octaves++
			n++
		}
		pitches, lower, s = append(pitches, p), append(lower, s[0] >= 'a'), s[n:]
	}
	switch octaves {
	case 0:
		ascend(pitches, lower)
	case len(pitches):
	default:
		return nil, errors.New("write the octave of every string or of none")
	}
	if len(pitches) == 0 {
		return nil, errors.New("no strings")
	}
	for _, p := range pitches {
		if m := p.MIDI(); m < lowestString || m > highestString {
			return nil, fmt.Errorf("%s is no string: strings go from A0 to C8", p)
		}
	}
	return pitches, nil
}

// ascend puts strings that are all in octave 4 where they belong: those in capitals ascend to the last of them.
func ascend(pitches []theory.Pitch, lower []bool) {
	next := -1 // the string in capitals that follows
	for i := len(pitches) - 1; i >= 0; i-- {
		if lower[i] {
			continue
		}
		for next >= 0 && pitches[i].MIDI() > pitches[next].MIDI() {
			pitches[i].Octave--
		}
		next = i
	}
}
