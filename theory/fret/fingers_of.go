package fret

// Fingers returns which finger stops each string in the easiest fingering, in the tuning's order: 1 the index to 4 the little finger, 0
// none. It returns nil if four fingers cannot hold the shape, or if the shape is not heard as a chord: fingers that are still being set
// are held in no way yet.
func (v Voicing) Fingers() []int {
	if v.Chord.Kind == nil {
		return nil
	}
	fingers, _, _, _ := Finger(v.Shape)
	return fingers
}
