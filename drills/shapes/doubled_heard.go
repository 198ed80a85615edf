package shapes

import (
	"slices"

	"sparetone/drills"
	"sparetone/synth"
	"sparetone/theory/fret"
)

// Of a doubled note is heard what tells it from others: the strings that sound it by themselves, and a chord without a string.

// doubledStrings are the strings that double a note, or, where none is doubled, all that sound.
func doubledStrings(v fret.Voicing) []int {
	if twice := v.Doubled(); len(twice) > 0 {
		return twice[0].Strings
	}
	var all []int
	for _, s := range v.Strings {
		if s.Fret != fret.Muted {
			all = append(all, s.Number)
		}
	}
	return all
}

// stringsOf are the strings that sound one of the tones, by their numbers above the root, or all that sound where tones is nil: what
// somebody took for doubled, or that none is.
func stringsOf(v fret.Voicing, tones []int) []int {
	var out []int
	for _, s := range v.Strings {
		if s.Fret != fret.Muted && (tones == nil || slices.Contains(tones, s.Interval.Number)) {
			out = append(out, s.Number)
		}
	}
	return out
}

// stringsAlone is some strings of a voicing, one after the other; no sound if none of them sounds.
func stringsAlone(v fret.Voicing, numbers ...int) []drills.Sound {
	notes := slices.DeleteFunc(drills.Soundings(v), func(n synth.Sounding) bool { return !slices.Contains(numbers, n.String) })
	if len(notes) == 0 {
		return nil
	}
	return []drills.Sound{{Label: sayStrings(v.Tuning, numbers), Notes: notes, Score: synth.Hand{Tempo: drills.FastestNotes}.Pick(notes)}}
}

// stringsWithout is a voicing without a string.
func stringsWithout(v fret.Voicing, number int) []drills.Sound {
	notes := slices.DeleteFunc(drills.Soundings(v), func(n synth.Sounding) bool { return n.String == number })
	return []drills.Sound{{Label: labelWithout(v, number), Notes: notes, Score: synth.Hand{}.Strum(notes)}}
}
