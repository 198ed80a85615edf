package theory

import (
	"math/bits"
	"slices"
	"sync"
)

// Context is what is known around a chord that may decide between its names. The zero Context says
// nothing.
type Context struct {
	Key      *Key
	Previous *Chord
	NoBass   bool // the instrument has no bass, so inversions need not be written: A C E A is Am even over C
}

// Naming is one right name of a set of sounding pitches, and why it stands where it does.
type Naming struct {
	Chord Chord // with Without set to the tones that do not sound
	Cost  int   // lower is the plainer name
	why   reason
}

// reason is a set of the things that rank a name.
type reason uint16

const (
	rootInBass reason = 1 << iota
	inversion
	foreignBass
	tonesMissing
	rootMissing
	inKey
)

var reasonWords = [...]string{
	"the root is the lowest note",
	"another tone of the chord is the lowest note",
	"the lowest note is not one of the chord's",
	"a tone is left out",
	"the root does not sound",
	"all its notes are of the key",
}

// Reasons says in words what ranked the name.
func (n Naming) Reasons() []string {
	var out []string
	for i, words := range reasonWords {
		if n.why&(1<<i) != 0 {
			out = append(out, words)
		}
	}
	return out
}

// reading is one way to hear a set of pitch classes above a root.
type reading struct {
	kind    *Kind
	without ToneSet
	cost    int
}

// readings lists, for every set of pitch classes above a root (bit 0 is the root), the kinds it may be.
var readings = sync.OnceValue(func() *[4096][]reading {
	var table [4096][]reading
	for rank, k := range kinds {
		for drop := range 1 << len(k.Omit) {
			var without ToneSet
			for o, tone := range k.Omit {
				if drop&(1<<o) != 0 {
					without |= 1 << slices.Index(k.Formula, tone)
				}
			}
			mask := 0
			for n, tone := range k.Formula {
				if !without.Has(n) {
					mask |= 1 << mod(tone.Semitones, 12)
				}
			}
			if bits.OnesCount(uint(mask)) < 2 {
				continue
			}
			cost := rank + 20*bits.OnesCount(uint(drop))
			table[mask] = append(table[mask], reading{k, without, cost})
		}
	}
	return &table
})

// plainRoots is how the root of each pitch class is written when no key says otherwise.
var plainRoots = [12]Note{{C, 0}, {D, -1}, {D, 0}, {E, -1}, {E, 0}, {F, 0}, {F, 1}, {G, 0}, {A, -1}, {A, 0}, {B, -1}, {B, 0}}

// Name returns every right name of a set of sounding pitches, the plainest first. Only what sounds
// counts: the pitches' own spelling is not asked.
func Name(pitches []Pitch, ctx Context) []Naming {
	if len(pitches) == 0 {
		return nil
	}
	mask, lowest := 0, pitches[0].MIDI()
	for _, p := range pitches {
		mask |= 1 << p.Class()
		lowest = min(lowest, p.MIDI())
	}
	bass := mod(lowest, 12)
	var out []Naming
	for root := range 12 {
		above := (mask>>root | mask<<(12-root)) & 0xfff
		for _, r := range readings()[above] {
			n := Naming{Chord: Chord{Root: plainRoots[root], Kind: r.kind, Without: r.without}, Cost: r.cost}
			n.Chord.Bass = n.Chord.Root
			switch {
			case above&1 == 0:
				n.why |= rootMissing
				n.Cost += 200
			case r.without != 0:
				n.why |= tonesMissing
			}
			if bass == root {
				n.why |= rootInBass
			} else if above&1 != 0 {
				tone, _ := r.kind.Tone(Interval{1, mod(bass-root, 12)})
				n.why |= inversion
				n.Cost += 10
				slash := n
				slash.Chord.Bass = n.Chord.Root.Up(tone)
				if ctx.NoBass {
					out = append(out, n)
					slash.Cost += 100
				}
				n = slash
			}
			if ctx.Key != nil && ctx.Key.holds(n.Chord) {
				n.why |= inKey
				n.Cost -= 30
			}
			out = append(out, n)
		}
	}
	slices.SortStableFunc(out, func(a, b Naming) int { return a.Cost - b.Cost })
	return out
}

// holds reports whether every tone of the chord that sounds is of the key.
func (k Key) holds(c Chord) bool {
	for _, n := range c.Tones() {
		if !k.Contains(n) {
			return false
		}
	}
	return true
}
