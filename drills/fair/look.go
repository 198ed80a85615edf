package fair

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/neck"
	"sparetone/theory/fret"
)

// Seen is the feature of a shape that is seen: where on the neck it lies, and how many strings sound.
func Seen(h neck.Held) Feature { return Feature{neck.Sounding(h.Shape), neck.LowestFret(h.Shape)} }

// SeenVoicing is the same feature of a voicing.
func SeenVoicing(v fret.Voicing) Feature {
	return Feature{neck.Sounding(v.Shape), neck.LowestFret(v.Shape)}
}

// RootLowest leaves of shapes those in which no note lies below the root, if that is wanted and each of the choices has some on the neck.
// options returns the shapes of each choice within a reach, and root the root of one.
func RootLowest[T any](r drills.Request, options func(reach float64) [][]T, shape func(T) neck.Held) func(reach float64) [][]T {
	if !r.Clarity.RootLowest {
		return options
	}
	rooted := func(reach float64) [][]T {
		lists := options(reach)
		out := make([][]T, len(lists))
		for n, list := range lists {
			for _, x := range list {
				if h := shape(x); (neck.Lowest(r.On.Tuning, h.Shape)-h.Chord.Root.Class())%12 == 0 {
					out[n] = append(out[n], x)
				}
			}
		}
		return out
	}
	if slices.ContainsFunc(rooted(1), func(list []T) bool { return len(list) == 0 }) {
		return options
	}
	return rooted
}
