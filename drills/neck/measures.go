package neck

import "sparetone/theory/fret"

// Lowest returns the MIDI number of the lowest note that a shape sounds.
func Lowest(t *fret.Tuning, s fret.Shape) int {
	low := 1 << 30
	for i, f := range s {
		if f != fret.Muted {
			low = min(low, t.MIDI(i, f))
		}
	}
	return low
}

// LowestFret returns the lowest fret that a shape stops, 0 if all strings are open.
func LowestFret(s fret.Shape) int {
	low := 0
	for _, f := range s {
		if f > 0 && (low == 0 || f < low) {
			low = f
		}
	}
	return low
}

// Sounding counts the strings that sound.
func Sounding(s fret.Shape) int {
	n := 0
	for _, f := range s {
		if f != fret.Muted {
			n++
		}
	}
	return n
}
