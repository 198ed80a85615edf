package neck

import (
	"math"
	"slices"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// NearestShape returns the shape of a chord that moves the fewest strings the least from another: what
// was answered, heard as much like what was asked as can be, with all its tones if it can be held so.
func NearestShape(on *Instrument, c theory.Chord, from fret.Shape) (fret.Voicing, bool) {
	if v, ok := NearestWhole(on, c, from); ok {
		return v, true
	}
	return nearestOf(on, c, from, fret.Search(on.Tuning, c, on.hand()))
}

// NearestWhole is the nearest shape of which no tone of the chord is left out.
func NearestWhole(on *Instrument, c theory.Chord, from fret.Shape) (fret.Voicing, bool) {
	return nearestOf(on, c, from, fret.Easiest(on.Tuning, c, on.hand(), fret.Wish{Effort: math.Inf(1), Needs: c.Kind.Formula}))
}

func nearestOf(on *Instrument, c theory.Chord, from fret.Shape, shapes []fret.Found) (fret.Voicing, bool) {
	if len(shapes) == 0 {
		return fret.Voicing{}, false
	}
	near := slices.MinFunc(shapes, func(a, b fret.Found) int { return Travel(a.Shape, from) - Travel(b.Shape, from) })
	v, err := fret.Voice(on.Tuning, near.Shape, c)
	return v, err == nil
}

// NearestKnown returns the one of a chord's easier shapes that lies nearest to another shape.
func NearestKnown(on *Instrument, c theory.Chord, from fret.Shape) (fret.Voicing, bool) {
	shapes := on.Shapes(c)
	if len(shapes) == 0 {
		return fret.Voicing{}, false
	}
	v, err := slices.MinFunc(shapes, func(a, b Held) int { return Travel(a.Shape, from) - Travel(b.Shape, from) }).Voice(on)
	return v, err == nil
}

// Travel measures how far two shapes lie apart: each string that moves, and how many frets.
func Travel(a, b fret.Shape) int {
	sum := 0
	for i := range a {
		if a[i] != b[i] {
			sum += 2 + Distance(a[i], b[i])
		}
	}
	return sum
}

// StringsMoved counts the strings that move between two shapes.
func StringsMoved(a, b fret.Shape) int {
	n := 0
	for i := range a {
		if a[i] != b[i] {
			n++
		}
	}
	return n
}

// Distance is how many frets lie between two.
func Distance(a, b int) int { return max(a-b, b-a) }
