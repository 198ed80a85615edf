package neck

import (
	"cmp"
	"slices"

	"sparetone/drills/chord"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// HeldTo returns the instrument with its questions held to something.
func (i *Instrument) HeldTo(h Hold) *Instrument {
	return &Instrument{Tuning: i.Tuning, Voices: i.Voices, Hand: i.Hand, hold: &h}
}

// IsHeldToChords reports whether chords are held to some.
func (i *Instrument) IsHeldToChords() bool { return i.hold != nil && len(i.hold.Chords) > 0 }

// MayAsk reports whether a chord may be asked: any, where nothing is held back.
func (i *Instrument) MayAsk(c theory.Chord) bool { return !i.IsHeldToChords() || i.hold.allows(c) }

// Hold returns what questions are held to; the zero Hold where that is nothing.
func (i *Instrument) Hold() Hold {
	if i.hold == nil {
		return Hold{}
	}
	return *i.hold
}

// RootsFor returns the roots on which a kind of chord is asked.
func (i *Instrument) RootsFor(k *theory.Kind) []theory.Note {
	if i.IsHeldToChords() {
		return i.hold.roots(k)
	}
	return chord.RootsOf(k)
}

// held returns so many shapes of a chord that may be asked, the listed ones or else the easiest; 0 is all of them, and nil if it may
// not be asked. The neck is locked.
func (i *Instrument) held(c theory.Chord, most int) []Held {
	if !i.IsHeldToChords() {
		return i.easiest(c, most)
	}
	if !i.hold.allows(c) {
		return nil
	}
	l, _ := i.hold.listed(c)
	if len(l.Shapes) == 0 {
		return i.easiest(c, most)
	}
	var out []Held
	for _, s := range l.Shapes {
		_, _, effort, _ := fret.Finger(s)
		out = append(out, Held{c, s, effort})
	}
	return out
}

// heldFirst returns the first shape of each chord of a kind that may be asked.
func (i *Instrument) heldFirst(k *theory.Kind) (first []Held) {
	for _, root := range i.hold.roots(k) {
		if all := i.Shapes(theory.NewChord(root, k)); len(all) > 0 {
			first = append(first, all[0])
		}
	}
	return first
}

// mayMove reports whether a plain shape may be changed so: by a move that is listed, where any is of that chord; else to a chord that
// may be asked.
func (i *Instrument) mayMove(c Change) bool {
	if !i.IsHeldToChords() {
		return true
	}
	listed := false
	for _, m := range i.hold.Moves {
		if m.Plain.Kind == c.Plain.Kind && m.Plain.Root.Same(c.Plain.Root) {
			if listed = true; slices.Equal(m.From, c.From) && slices.Equal(m.To, c.To) {
				return true
			}
		}
	}
	return !listed && i.hold.allows(c.Chord)
}

// HeldNames are the chords that stand beside one among names to choose from: those that are listed and sound otherwise.
func (i *Instrument) HeldNames(beside fret.Voicing) (out []theory.Chord) {
	names := chord.RightNames(beside)
	for _, c := range i.hold.Chords {
		if !chord.IsNamed(names, c.Chord) {
			out = append(out, c.Chord)
		}
	}
	return out
}

// HeldKey returns the key in which a mode is asked: the one that is held to, or its relative. It is false for any key.
func (i *Instrument) HeldKey(minor bool) (k theory.Key, ok bool) {
	if i.hold == nil || i.hold.Key == nil {
		return k, false
	}
	switch k = *i.hold.Key; {
	case k.Minor == minor:
	case minor:
		k = theory.Key{Tonic: k.Tonic.Down(theory.MinorThird), Minor: true}
	default:
		k = theory.Key{Tonic: k.Tonic.Up(theory.MinorThird)}
	}
	return k, true
}

// Easiest returns the shape of a chord that is asked first, false if there is none that a hand can hold.
func (i *Instrument) Easiest(c theory.Chord) (fret.Shape, bool) {
	all := i.Shapes(c)
	if len(all) == 0 {
		return nil, false
	}
	return all[0].Shape, true
}

// BestMove returns the move of one string that makes of a plain chord a coloured one: from a shape that players are taught, if there is one, to
// one that they are taught, if there is one, and of those the one that asks the least of the hand. Where no taught shape becomes that chord and
// one becomes another, first of those of the kinds that are named, it is that one. False if there is none.
func (i *Instrument) BestMove(plain, coloured theory.Chord, named func(*theory.Kind) bool) (HeldMove, bool) {
	untaught := func(c theory.Chord, s fret.Shape) int {
		if slices.ContainsFunc(fret.Taught(i.Tuning, c), func(t fret.Shape) bool { return slices.Equal(t, s) }) {
			return 0
		}
		return 1
	}
	far := func(k *theory.Kind) int {
		switch {
		case k == coloured.Kind:
			return 0
		case named(k):
			return 1
		}
		return 2
	}
	worse := func(a, b Change) int {
		return cmp.Or(untaught(plain, a.From)-untaught(plain, b.From), far(a.Chord.Kind)-far(b.Chord.Kind), untaught(a.Chord, a.To)-untaught(b.Chord, b.To), cmp.Compare(a.Effort, b.Effort))
	}
	can := where(i.Changes(plain), func(c Change) bool { return c.Chord.Kind == coloured.Kind || untaught(plain, c.From) == 0 })
	if len(can) == 0 {
		return HeldMove{}, false
	}
	best := slices.MinFunc(can, worse)
	return HeldMove{Plain: plain, Coloured: theory.NewChord(plain.Root, best.Chord.Kind), From: best.From, To: best.To}, true
}
