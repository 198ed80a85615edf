package neck

import (
	"slices"

	"sparetone/drills/chord"
	"sparetone/theory"
)

// Turns reports whether chords may be asked over another note than their root: where the instrument has a bass, and chords are not held
// to some.
func (i *Instrument) Turns() bool { return i.Tuning.HasBass() && !i.IsHeldToChords() }

// fewestOverBass is how many strings sound at least of a chord over another note than its root: with fewer the lowest is hardly heard as a
// bass (from judgement).
const fewestOverBass = 4

// ShapesOver returns the shapes of a chord over a bass that questions are made from, the easiest first.
func (i *Instrument) ShapesOver(c theory.Chord) []Held {
	return slices.DeleteFunc(slices.Clone(i.Shapes(c)), func(h Held) bool { return Sounding(h.Shape) < fewestOverBass })
}

// TurnedShapes returns the shapes of a kind of chord, on every root, whose lowest note is its third, its fifth or its seventh. An added
// note is left out: C6 over A is Am7.
func (i *Instrument) TurnedShapes(k *theory.Kind, reach float64) []Held {
	var all [][]Held
	for _, root := range i.RootsFor(k) {
		for _, c := range chord.Turned(theory.NewChord(root, k)) {
			all = append(all, i.ShapesOver(c))
		}
	}
	return Within(all, reach, func(h Held) float64 { return h.Effort })
}
