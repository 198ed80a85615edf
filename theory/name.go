package theory

import (
	"cmp"
	"slices"
)

// Context is what is known around a chord that may decide between its names. The zero Context says
// nothing.
type Context struct {
	Key      *Key
	Previous *Chord
	NoBass   bool // the instrument has no bass, so inversions are not written: C E A is Am
	All      bool // names that are right, though nobody would say them, are listed too
}

// Naming is one right name of a set of sounding pitches, and why it stands where it does.
type Naming struct {
	Chord Chord // with Without set to the tones that do not sound
	Cost  int   // lower is the plainer name
	why   reason
}

// candidate is a name before it is written out. It holds no pointers, so that sorting many is cheap.
type candidate struct {
	cost    int32
	bare    int32 // the cost without what is known around the chord
	why     reason
	hearing uint16 // its place among all hearings
	root    uint8  // the root's pitch class
	slash   bool   // the bass is written out
}

// Name returns the names that players would say of a set of sounding pitches, the plainest first; or, if the context
// asks for all, every right name. Only what sounds counts: how the pitches are spelled is not asked. Roots are spelled
// as in the key (Key.root), or else so that the chord has the fewest accidentals. One pitch class alone has no name.
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
			if h := &table.all[n]; h.without == 0 && len(h.kind.Formula) <= 4 && !h.kind.lacksThird(bass-root) {
				list = table.hear(list, n, root, bass, &ctx)
			}
		}
	}
	if ctx.Key != nil || ctx.Previous != nil {
		table.keepPlainest(list, &ctx)
	}
	if !ctx.All {
		list = table.said(list, bass)
	}
	// Equal costs stay in the order of the roots.
	slices.SortStableFunc(list, func(a, b candidate) int { return cmp.Compare(a.cost, b.cost) })
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
	plain := h.kind.plain && h.why&^rootMissing == 0
	switch {
	case bass == root:
		c.why |= rootInBass
	case h.kind.toneAt[mod(bass-root, 12)] < 0:
		c.why |= foreignBass
		c.cost += foreignCost(h.kind, mod(bass-root, 12))
		c.slash = true
	case ctx.NoBass:
		c.why |= inversion
		c.cost += costTurned
	case plain:
		c.why |= inversion
		c.cost += costInversion
		c.slash = true
	default:
		c.why |= inversion
		c.cost += costInverted
		c.slash = true
	}
	c.bare = c.cost
	if ctx.Key != nil {
		c.inKey(*ctx.Key, h.kind)
	}
	if ctx.Previous != nil {
		c.after(ctx.Previous.Root.Class())
	}
	if plain && c.slash && c.why&inversion != 0 && c.why&(tonicRoot|resolves) != 0 && h.kind.family != augmenteds {
		c.cost += costExpected // an augmented chord sounds alike on three roots
	}
	return append(list, c)
}

// lacksThird reports whether the tone so many semitones above the root is a third, and the kind has none. Over its third no
// chord is suspended: what sounds beside the third is added, Gadd4/B and not Gsus4/B.
func (k *Kind) lacksThird(semitones int) bool {
	above := mod(semitones, 12)
	return (above == MinorThird.Semitones || above == MajorThird.Semitones) && k.Numbered(3) < 0
}

// foreignCost weighs a bass so many semitones above the root that is none of the chord's tones.
func foreignCost(k *Kind, above int) int32 {
	switch {
	case k.plainTriad() && above >= MinorSeventh.Semitones:
		return costSlashedSev
	case k.plainTriad():
		return costSlash
	case len(k.Formula) == 3 && k.toneAt[MajorSecond.Semitones] >= 0 && above == MajorSeventh.Semitones:
		return costForeignSus
	}
	return costForeign
}

// plainTriad reports whether a kind is major or minor.
func (k *Kind) plainTriad() bool { return len(k.Formula) == 3 && k.toneAt[7] == 2 && k.plain }

// said drops the names that nobody would say:
//
//   - those that cost much more than the plainest, and sooner if tones are left out;
//   - a triad over a bass, C/A, where the lowest note is the root of a seventh chord, Am7;
//   - a chord with an added note that sounds in the bass alone, Cadd9/D, where the triad over that bass, C/D, says as
//     much.
func (t *hearings) said(list []candidate, bass int) []candidate {
	var (
		best    = int32(1 << 30)
		slashed classes // roots of plain triads over a foreign bass
		rooted  bool    // the lowest note is the root of a triad or a seventh chord
	)
	for i := range list {
		c, h := &list[i], &t.all[list[i].hearing]
		best = min(best, c.cost)
		if c.why&foreignBass != 0 && h.kind.plainTriad() {
			slashed |= 1 << c.root
		}
		rooted = rooted || c.why&rootInBass != 0 && h.kind.plain && h.without == 0
	}
	out := list[:0]
	for _, c := range list {
		h, most := &t.all[c.hearing], best+mostAbove
		switch {
		case c.why&rootMissing != 0:
			most = 2*costRootless - 1
		case h.without != 0 && !h.also:
			most = best + mostAboveLess
		case h.kind.plain && c.why&inversion != 0:
			most = best + mostAbovePlain
		case c.why&foreignBass != 0 && rooted, c.why&inversion != 0 && slashed&(1<<c.root) != 0 && h.adds(bass-int(c.root)):
			continue
		}
		if c.cost <= most {
			out = append(out, c)
		}
	}
	return out
}

// keepPlainest sees to it that what is known around the chord puts no worse name before the one that is the plainest
// without it.
func (t *hearings) keepPlainest(list []candidate, ctx *Context) {
	if len(list) == 0 {
		return
	}
	plainest := list[0]
	for _, c := range list[1:] {
		if c.bare < plainest.bare {
			plainest = c
		}
	}
	for i := range list {
		if c := &list[i]; c.cost <= plainest.cost && t.worse(*c, plainest, ctx) {
			c.cost = plainest.cost + 1
		}
	}
}

// worse reports whether a name is worse than another that is plainer by itself, whatever is known around the chord: another
// name on the same root; one of which a tone is left out, where the other is whole; one that is turned, where the other has
// its root in the bass; none of a triad or a seventh chord, where the other is. The last two are no worse where the chord
// before leads to it, where it leads in the key, or where it is a chord of the key on the tonic; but only a triad or a
// seventh chord is turned for that.
func (t *hearings) worse(c, than candidate, ctx *Context) bool {
	h, other := &t.all[c.hearing], &t.all[than.hearing]
	switch {
	case c.root == than.root:
		return c.hearing != than.hearing
	case h.without != 0 && other.without == 0:
		return true
	}
	turned := !ctx.NoBass && than.why&rootInBass != 0 && c.why&rootInBass == 0
	if turned && !h.kind.plain {
		return true
	}
	if !turned && (h.kind.plain || !other.kind.plain) {
		return false
	}
	return c.why&(resolves|leadingRoot) == 0 && !(c.why&tonicRoot != 0 && ctx.Key.Holds(NewChord(ctx.Key.Tonic, h.kind)))
}

// adds reports whether the tone so many semitones above the root is the one that the chord has beside a triad.
func (h *hearing) adds(semitones int) bool {
	return !h.kind.plain && len(h.kind.Formula) == 4 && h.kind.toneAt[mod(semitones, 12)] >= 0
}

// inKey weighs a chord in the key.
func (c *candidate) inKey(k Key, kind *Kind) {
	root := int(c.root)
	above := mod(root-k.Tonic.Class(), 12)
	switch {
	case kind.family == dim7th && k.leadsDiminished(above):
		c.why |= leadingRoot
		c.cost += costLeading
		if k.Minor && above == MajorSeventh.Semitones {
			c.cost += costLeadingOwn
		}
	case above == 0 && kind.family != dim7th && c.why&foreignBass == 0:
		c.why |= tonicRoot
		c.cost += costTonic
	case k.degreeAt(above) < 0 && !(kind.family.diminished() && k.leadsDiminished(above)):
		c.why |= outsideKey
		c.cost += costOutsideKey
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
		root = ctx.Key.root(int(c.root), h.kind)
	}
	chord := Chord{Root: root, Kind: h.kind, Bass: root, Without: h.without}
	if c.slash {
		chord.Bass = bassNote(root, h.kind, bass, ctx.Key)
	}
	return Naming{Chord: chord, Cost: int(c.cost), why: c.why}
}
