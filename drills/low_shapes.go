package drills

import (
	"cmp"
	"slices"

	"sparetone/theory"
)

// commonChords are the chords that players meet first whatever they play: the open ones of a guitar and of a ukulele, which most songs
// for beginners are made of (common practice, no source).
var commonChords = map[string][]theory.Note{
	"major":    notes("C F G A D E"),
	"minor":    notes("A D E"),
	"dominant": notes("G"),
}

// lowFrets is how far up the neck low shapes reach at the most.
const lowFrets = 4

// lowShapes returns what stands for the textbook where there is none: of each chord of a kind the shape that players would learn first,
// the common chords apart from the rest. Chords that have no low shape are left out.
func (i *Instrument) lowShapes(k *theory.Kind) (out taught) {
	for _, root := range rootsOf(k) {
		low := slices.DeleteFunc(i.easiest(theory.NewChord(root, k), 0), func(h held) bool { return slices.Max(h.shape) > lowFrets })
		switch isCommon := slices.ContainsFunc(commonChords[k.ID], root.Same); {
		case len(low) == 0:
		case isCommon:
			out.first = append(out.first, slices.MinFunc(low, learnedBefore))
		default:
			out.later = append(out.later, slices.MinFunc(low, learnedBefore))
		}
	}
	slices.SortStableFunc(out.first, func(a, b held) int { return cmp.Compare(a.effort, b.effort) })
	return out
}

// learnedBefore orders shapes as players learn them: what beginners can hold first, of that what lets the most strings sound, so that
// none has to be kept silent, and then what is easier.
func learnedBefore(a, b held) int {
	hard := func(h held) int { return map[bool]int{true: 1}[h.effort > firstEffort] }
	return cmp.Or(hard(a)-hard(b), sounding(b.shape)-sounding(a.shape), cmp.Compare(a.effort, b.effort))
}
