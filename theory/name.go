package theory

import (
	"math/bits"
	"slices"
	"sync"
)

// Naming a set of pitches takes one table, made once: for each of the 4096 sets of pitch classes above a root,
// the kinds that it may be, complete or with tones left out that may be. The pitches are looked at from each of
// the twelve roots in turn; whatever the table holds there is a right name. For example G C E A is, from
// C, the set R 3 5 6, which is C6, and from A the set R ♭3 5 ♭7, which is Am7.
//
// Right names are many, so they are ranked by what they ask of the person who reads them. The costs add up; the
// figures are our own, set so that players' names for common shapes come first:
//
//	the kind of chord          its place in the table of kinds: 0 for major, 100 and more for the rarest
//	a fifth left out           20
//	another tone left out      35
//	not the root in the bass   12, or 3 on an instrument without a bass
//	a bass foreign to it       60
//	the root left out          1000, so that these come last
//	the root is the tonic      -25
//	the root is not of the key 15
//	the chord before leads to  -20: its root lies a fifth above
//	the chord before has the   -10
//	same root
const (
	costFifth      = 20
	costTone       = 35
	costInversion  = 12
	costTurned     = 3
	costForeign    = 60
	costRootless   = 1000
	costTonic      = -25
	costOutsideKey = 15
	costResolves   = -20
	costSameRoot   = -10
)

// Context is what is known around a chord that may decide between its names. The zero Context says
// nothing.
type Context struct {
	Key      *Key
	Previous *Chord
	NoBass   bool // the instrument has no bass, so inversions are not written: C E A is Am
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
	fifthMissing
	toneMissing
	rootMissing
	tonicRoot
	outsideKey
	resolves
	sameRoot
)

// reasonWords are the reasons in words, in the order of the bits.
var reasonWords = [...]string{
	"its root is the lowest note",
	"its root is not the lowest note",
	"the lowest note is foreign to it",
	"its fifth is left out",
	"a tone other than its fifth is left out",
	"its root does not sound",
	"its root is the tonic of the key",
	"its root is not of the key",
	"the chord before leads to it by a fifth",
	"the chord before has the same root",
}

// Reasons says in words what ranked the name, beside how common its kind is.
func (n Naming) Reasons() []string {
	var out []string
	for i, words := range reasonWords {
		if n.why&(1<<i) != 0 {
			out = append(out, words)
		}
	}
	return out
}

// classes is a set of pitch classes: bit 0 is C, or the root if it is seen from one.
type classes uint16

// from returns the set as it is seen from a root.
func (s classes) from(root int) classes { return (s>>root | s<<(12-root)) & 0xfff }

// hearing is one kind that a set of pitch classes above a root may be.
type hearing struct {
	kind    *Kind
	without ToneSet
	why     reason
	cost    int32
}

// hearings lists what each set of pitch classes above a root may be: those of set s are
// all[first[s]:first[s+1]].
type hearings struct {
	all   []hearing
	first [4097]uint16
}

func (h *hearings) of(s classes) (from, to uint16) { return h.first[s], h.first[s+1] }

var allHearings = sync.OnceValue(func() *hearings {
	var bySet [4096][]hearing
	for place, k := range kinds {
		if slices.Contains(bySpelling, k.ID) {
			continue
		}
		for drop := range 1 << len(k.Omit) {
			h := hearing{kind: k, cost: int32(place)}
			for n, tone := range k.Omit {
				if drop&(1<<n) == 0 {
					continue
				}
				h.without |= 1 << slices.Index(k.Formula, tone)
				switch tone {
				case Unison:
					h.why |= rootMissing
					h.cost += costRootless
				case PerfectFifth:
					h.why |= fifthMissing
					h.cost += costFifth
				default:
					h.why |= toneMissing
					h.cost += costTone
				}
			}
			if s := k.sounding(h.without); h.enough(s) {
				bySet[s] = append(bySet[s], h)
			}
		}
	}
	out := &hearings{}
	for s, list := range bySet {
		out.first[s] = uint16(len(out.all))
		out.all = append(out.all, list...)
	}
	out.first[4096] = uint16(len(out.all))
	return out
})

// sounding returns the pitch classes above the root, without the tones left out.
func (k *Kind) sounding(without ToneSet) classes {
	var s classes
	for n, tone := range k.Formula {
		if !without.Has(n) {
			s |= 1 << mod(tone.Semitones, 12)
		}
	}
	return s
}

// enough reports whether the tones that sound still carry the name. Two do for a triad without its
// fifth; chords of more tones need three, and four if the root is among those that do not sound.
func (h hearing) enough(s classes) bool {
	n := bits.OnesCount16(uint16(s))
	switch {
	case h.why&rootMissing != 0:
		return n >= 4
	case len(h.kind.Formula) > 3:
		return n >= 3
	}
	return n >= 2
}

// candidate is a name before it is written out. It holds no pointers, so that sorting many is cheap.
type candidate struct {
	cost    int32
	why     reason
	hearing uint16 // its place among all hearings
	root    uint8  // the root's pitch class
	slash   bool   // the bass is written out
}

// Name returns every right name of a set of sounding pitches, the plainest first. Only what sounds counts: how
// the pitches are spelled is not asked, and roots are spelled as the key does, or else so that the chord has
// the fewest accidentals. One pitch class alone has no name.
func Name(pitches []Pitch, ctx Context) []Naming {
	if len(pitches) == 0 {
		return nil
	}
	var (
		sound  classes
		above  classes // what sounds above the lowest note
		lowest = pitches[0].MIDI()
	)
	for _, p := range pitches[1:] {
		lowest = min(lowest, p.MIDI())
	}
	for _, p := range pitches {
		m := p.MIDI()
		sound |= 1 << mod(m, 12)
		if m != lowest {
			above |= 1 << mod(m, 12)
		}
	}
	bass := mod(lowest, 12)
	foreign := !ctx.NoBass && above&(1<<bass) == 0
	table := allHearings()
	var room [96]candidate
	list := room[:0]
	for root := range 12 {
		from, to := table.of(sound.from(root))
		for n := from; n < to; n++ {
			list = table.hear(list, n, root, bass, &ctx)
		}
		if !foreign || above&(1<<root) == 0 {
			continue
		}
		from, to = table.of(above.from(root))
		for n := from; n < to; n++ {
			if h := &table.all[n]; h.without == 0 && len(h.kind.Formula) <= 4 {
				list = table.hear(list, n, root, bass, &ctx)
			}
		}
	}
	// An insertion sort: the lists are short, and equal costs stay in the order of the roots.
	for i := 1; i < len(list); i++ {
		c, j := list[i], i
		for ; j > 0 && c.cost < list[j-1].cost; j-- {
			list[j] = list[j-1]
		}
		list[j] = c
	}
	out := make([]Naming, len(list))
	for i, c := range list {
		out[i] = table.name(c, bass, &ctx)
	}
	return out
}

// hear adds what the n-th hearing may be called on a root over a bass, both as pitch classes.
func (t *hearings) hear(list []candidate, n uint16, root, bass int, ctx *Context) []candidate {
	h := &t.all[n]
	c := candidate{cost: h.cost, why: h.why, hearing: n, root: uint8(root)}
	if ctx.Key != nil {
		c.inKey(*ctx.Key)
	}
	if ctx.Previous != nil {
		c.after(ctx.Previous.Root.Class())
	}
	switch {
	case bass == root:
		c.why |= rootInBass
	case h.kind.toneAt[mod(bass-root, 12)] < 0:
		c.why |= foreignBass
		c.cost += costForeign
		c.slash = true
	case ctx.NoBass:
		c.why |= inversion
		c.cost += costTurned
	default:
		c.why |= inversion
		c.cost += costInversion
		c.slash = true
	}
	return append(list, c)
}

// inKey weighs the root in the key.
func (c *candidate) inKey(k Key) {
	switch note, ok := k.spell(int(c.root)); {
	case !ok:
		c.why |= outsideKey
		c.cost += costOutsideKey
	case note == k.Tonic:
		c.why |= tonicRoot
		c.cost += costTonic
	}
}

// after weighs the root against the pitch class of the root before.
func (c *candidate) after(previous int) {
	switch mod(previous-int(c.root), 12) {
	case 7:
		c.why |= resolves
		c.cost += costResolves
	case 0:
		c.why |= sameRoot
		c.cost += costSameRoot
	}
}

// name writes a candidate out.
func (t *hearings) name(c candidate, bass int, ctx *Context) Naming {
	h := &t.all[c.hearing]
	root := h.kind.rootAs[c.root]
	if ctx.Key != nil {
		if note, ok := ctx.Key.spell(int(c.root)); ok {
			root = note
		}
	}
	chord := Chord{Root: root, Kind: h.kind, Bass: root, Without: h.without}
	if c.slash {
		if tone := h.kind.toneAt[mod(bass-int(c.root), 12)]; tone >= 0 {
			chord.Bass = root.Up(h.kind.Formula[tone])
		} else {
			chord.Bass = roots[bass][0]
			if ctx.Key != nil {
				if note, ok := ctx.Key.spell(bass); ok {
					chord.Bass = note
				}
			}
		}
	}
	return Naming{Chord: chord, Cost: int(c.cost), why: c.why}
}
