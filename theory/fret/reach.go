package fret

// The hand's reach is a length and no number of frets, for frets grow narrower towards the body and on shorter strings. An
// ordinary hand puts a finger on each of four frets, the first four of a banjo's 670 mm among them, which are 101 mm from
// the first stop to the last. It reaches as far on any neck: that is five frets from the fifth of a guitar on, and from the
// first of a ukulele or a mandolin, as in F on the mandolin, 5301. Over more than five, four fingers are spread as players
// do it only where strings are a fifth apart and each finger has two frets to look after: 7523, the closed G of mandolin
// players, covers six. Four frets a hand reaches everywhere, on a bass too, where it turns with them. Common practice, no
// source, but for the lengths, which follow from equal temperament.
const (
	handReach   = 101.0 // mm from the lowest stop to the highest
	leastReach  = 4     // frets from the lowest stop to the highest, both counted, that a hand reaches on any neck
	usualReach  = 5     // frets that it covers at the most, however narrow
	widestReach = 6     // the same where the strings are a fifth apart
)

// Reach returns the highest fret that a hand reaches together with a stop at a fret, 1 or higher.
func (t *Tuning) Reach(fret int) int {
	frets := usualReach
	if t.inFifths() {
		frets = widestReach
	}
	for ; frets > leastReach; frets-- {
		if high := fret + frets - 1; t.Scale*(fretAt(fret)-fretAt(high)) <= handReach {
			return high
		}
	}
	return fret + leastReach - 1
}

// fretAt is where a fret lies: the part of a string that is left between it and the bridge.
func fretAt(fret int) float64 { return fretWidth[min(fret, maxTypedFret)] * fretWidth[2] }

// inFifths reports whether each string lies a fifth above the one before.
func (t *Tuning) inFifths() bool {
	for i := 1; i < len(t.Strings); i++ {
		if t.MIDI(i, 0)-t.MIDI(i-1, 0) != 7 {
			return false
		}
	}
	return true
}
