package drills

import (
	"math/rand/v2"
	"time"

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
	low := lowest(w.tonic.Tuning, w.tonic.Shape)
	for _, v := range w.chords {
		low = min(low, lowest(v.Tuning, v.Shape))
	}
	return low
}

// strings counts the strings that sound in a row, chord by chord.
func (w row) strings() int {
	n := 0
	for _, v := range append([]fret.Voicing{w.tonic}, w.chords...) {
		n += sounding(v.Shape)
	}
	return n
}

// heardRow are the features of a row that is heard: how many strings sound, and how low.
var heardRow = []func(row) feature{
	func(w row) feature { return feature{w.strings(), w.lowest()} },
	func(w row) feature { return feature{w.strings()} },
	func(w row) feature { return feature{0, w.lowest()} },
}

// keysTried is how many keys a progression is laid out in before one is picked.
const keysTried = 4

// keys picks some keys.
func (i *Instrument) keys(minor bool, rng *rand.Rand) []theory.Key {
	if k, ok := i.heldKey(minor); ok {
		return []theory.Key{k}
	}
	all := rootsOf(mustKind(theory.Key{Minor: minor}.Mode()))
	var out []theory.Key
	for _, n := range rng.Perm(len(all))[:keysTried] {
		out = append(out, theory.Key{Tonic: all[n], Minor: minor})
	}
	return out
}

// layOut finds shapes for chords in a key, from each shape of its tonic that is within reach.
func layOut(on *Instrument, k theory.Key, chords []theory.Chord, reach float64) []row {
	var out []row
	for _, h := range within([][]held{on.shapes(k.Triads()[0])}, reach, func(h held) float64 { return h.effort }) {
		tonic, err := h.voice(on)
		if err != nil {
			continue
		}
		w := row{key: k, tonic: tonic}
		last := h.shape
		for _, c := range chords {
			v, ok := nearestKnown(on, c, last)
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
func (w row) sounds(how synth.How, rng *rand.Rand) []Sound {
	play := func(label say.Text, v fret.Voicing) Sound {
		s := played(label, v, how)
		s.Score = synth.Hand{Tempo: chordTempo, Ring: chordRing, Rand: rng}.Play(how, s.Notes)
		return s
	}
	out := []Sound{play(labelKey, w.tonic)}
	for n, v := range w.chords {
		out = append(out, play(labelChordNumber(n+1), v))
	}
	return out
}
