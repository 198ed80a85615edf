package fret

import (
	"slices"

	"sparetone/theory"
)

// Chords with more notes, or with another in place of the third, are learned as a change of the triad on their root that
// is known already: Gsus4 from G, C7 from C, B6 from B. So a shape that lies near to a taught one of that triad comes before
// others that are as easy. A chord whose fifth is altered is learned for itself.

// triads returns the shapes that players are taught of the triad from which a chord is learned, major where it has no
// third; none if it is a triad, lies over another bass than its root or has no perfect fifth.
func triads(t *Tuning, c theory.Chord) []Shape {
	f := c.Kind.Formula
	if !slices.Contains(f, theory.PerfectFifth) || len(f) < 3 || c.Bass != c.Root {
		return nil
	}
	id := "major"
	if slices.Contains(f, theory.MinorThird) {
		id = "minor"
	}
	if triad, ok := theory.KindByID(id); ok && triad != c.Kind {
		return Taught(t, theory.NewChord(c.Root, triad))
	}
	return nil
}

// fromTriad is what the way costs to a shape from the nearest of a triad's: each fret that a string moves, farthest at the
// most, and each string that is muted in one of the two as one fret.
func fromTriad(triads []Shape, to Shape) float64 {
	if len(triads) == 0 {
		return 0
	}
	nearest := none
	for _, from := range triads {
		frets := 0
		for i, f := range from {
			switch {
			case f == to[i]:
			case f == Muted || to[i] == Muted:
				frets++
			default:
				frets += min(farthest, max(f-to[i], to[i]-f))
			}
		}
		nearest = min(nearest, frets)
	}
	return cost.moved * float64(nearest)
}
