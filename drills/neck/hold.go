package neck

import (
	"slices"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// Hold is what questions are held to, as a lesson or a song says: chords, the shapes they are held in, and what one string makes of
// them. A kind of chord of which none is listed is asked on the roots of those that are. The zero Hold holds nothing back.
type Hold struct {
	Chords []HeldChord
	Moves  []HeldMove     // where a plain chord has any, it is changed by these alone
	Key    *theory.Key    // of what is asked in a key; nil for any
	Loop   []theory.Chord // of a song, as they come: in Key, rows of chords in which one is coloured are taken from it; nil for any
}

// HeldChord is a chord that is asked.
type HeldChord struct {
	theory.Chord
	Shapes []fret.Shape // it is asked in these; none for the easiest
}

// HeldMove is one string moved from a plain shape to a coloured one.
type HeldMove struct {
	Plain, Coloured theory.Chord
	From, To        fret.Shape
}

// IsZero reports whether nothing is held back.
func (h *Hold) IsZero() bool { return h == nil || len(h.Chords) == 0 && h.Key == nil }

// roots returns the roots on which a kind of chord is asked: those of the chords that are listed of it, or of all.
func (h *Hold) roots(k *theory.Kind) []theory.Note {
	var own, all []theory.Note
	add := func(list *[]theory.Note, n theory.Note) {
		if !slices.ContainsFunc(*list, n.Same) {
			*list = append(*list, n)
		}
	}
	for _, c := range h.Chords {
		if add(&all, c.Root); c.Kind == k {
			add(&own, c.Root)
		}
	}
	if own == nil {
		return all
	}
	return own
}

// listed returns the chord that is listed, with the shapes it is asked in.
func (h *Hold) listed(c theory.Chord) (HeldChord, bool) {
	i := slices.IndexFunc(h.Chords, func(l HeldChord) bool { return l.Kind == c.Kind && l.Root.Same(c.Root) })
	if i < 0 {
		return HeldChord{}, false
	}
	return h.Chords[i], true
}

// allows reports whether a chord may be asked.
func (h *Hold) allows(c theory.Chord) bool {
	return slices.ContainsFunc(h.roots(c.Kind), c.Root.Same)
}
