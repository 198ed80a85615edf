package meet

import "sparetone/theory/fret"

// onlyMoved returns the number of the one string that two shapes of chords on one root have at different frets; 0 if it is not one.
func onlyMoved(a, b *fret.Voicing) int {
	if a == nil || b == nil || a.Chord.Kind == nil || b.Chord.Kind == nil || !a.Chord.Root.Same(b.Chord.Root) {
		return 0
	}
	moved := 0
	for i, f := range a.Shape {
		if f == b.Shape[i] {
			continue
		}
		if moved != 0 {
			return 0
		}
		moved = a.Tuning.StringNumber(i)
	}
	return moved
}
