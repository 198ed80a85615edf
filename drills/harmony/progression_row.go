package harmony

import (
	"math/rand/v2"
	"slices"
	"time"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/fair"
	"sparetone/drills/neck"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// row is a progression as it is played: a key, the shape of its tonic and one for each chord, each as near to the
// one before as can be.
type row struct {
	key    theory.Key
	tonic  fret.Voicing
	chords []fret.Voicing
}

// lowest returns the lowest note of a row and of its tonic before it, as a MIDI number.
func (w row) lowest() int {
	low := neck.Lowest(w.tonic.Tuning, w.tonic.Shape)
	for _, v := range w.chords {
		low = min(low, neck.Lowest(v.Tuning, v.Shape))
	}
	return low
}

// strings counts the strings that sound in a row, chord by chord.
func (w row) strings() int {
	n := 0
	for _, v := range append([]fret.Voicing{w.tonic}, w.chords...) {
		n += neck.Sounding(v.Shape)
	}
	return n
}

// heardRow are the features of a row that is heard: how many strings sound, and how low.
var heardRow = []func(row) fair.Feature{
	func(w row) fair.Feature { return fair.Feature{w.strings(), w.lowest()} },
	func(w row) fair.Feature { return fair.Feature{w.strings()} },
	func(w row) fair.Feature { return fair.Feature{0, w.lowest()} },
}

// keysOf are the keys of a mode that a row may be heard in. All of them are looked at, for on a guitar some six shapes of a tonic are not
// enough for five rows that are alike in one key: with four keys the lowest note told 6 points of which row it was.
func keysOf(on *neck.Instrument, minor bool) []theory.Key {
	if k, ok := on.HeldKey(minor); ok {
		return []theory.Key{k}
	}
	var out []theory.Key
	for _, n := range chord.RootsOf(chord.Kind(theory.Key{Minor: minor}.Mode())) {
		out = append(out, theory.Key{Tonic: n, Minor: minor})
	}
	return out
}

// fewestFirstKeys is how many keys a row that is new may stand in at least: in a single one whatever is alike is alike in one pitch.
const fewestFirstKeys = 5

// isWithin reports whether a key may be heard within a reach, 0 to 1, of the neck: one that is new only if its tonic is among the chords
// that players meet first, or, where these are few, if it has few sharps or flats; but always the one that is held to.
func isWithin(on *neck.Instrument, k theory.Key, reach float64) bool {
	if _, held := on.HeldKey(k.Minor); held || reach >= neck.NewReach {
		return true
	}
	first := on.FirstShapes(chord.Kind(k.Mode()))
	isFirst := slices.ContainsFunc(first, func(h neck.Held) bool { return h.Chord.Root.Same(k.Tonic) })
	signs := k.Signature()
	return isFirst || len(first) < fewestFirstKeys && max(signs, -signs) <= mostSignsFirst
}

// layOut finds shapes for chords in a key, from each shape of its tonic that is within reach.
func layOut(on *neck.Instrument, k theory.Key, chords []theory.Chord, reach float64) []row {
	var out []row
	for _, h := range neck.Within([][]neck.Held{on.Shapes(k.Triads()[0])}, reach, func(h neck.Held) float64 { return h.Effort }) {
		tonic, err := h.Voice(on)
		if err != nil {
			continue
		}
		w := row{key: k, tonic: tonic}
		last := h.Shape
		for _, c := range chords {
			v, ok := neck.NearestKnown(on, c, last)
			if !ok {
				break
			}
			w.chords = append(w.chords, v)
			last = v.Shape
		}
		if len(w.chords) == len(chords) {
			out = append(out, w)
		}
	}
	return out
}

// chordRing is how long each chord of a progression rings.
const chordRing = 1300 * time.Millisecond

// sounds returns what a row sounds like: the tonic, then the chords.
func (w row) sounds(how synth.How, rng *rand.Rand) []drills.Sound {
	play := func(label say.Text, v fret.Voicing) drills.Sound {
		s := drills.Played(label, v, how)
		s.Score = synth.Hand{Tempo: drills.ChordTempo, Ring: chordRing, Rand: rng}.Play(how, s.Notes)
		return s
	}
	out := []drills.Sound{play(labelKey, w.tonic)}
	for n, v := range w.chords {
		out = append(out, play(labelChordNumber(n+1), v))
	}
	return out
}
