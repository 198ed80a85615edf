package theory

import "math/bits"

// Two questions are asked of what sounds besides its plainest name: which names are right, and whether it may stand for
// a chord that was asked for. Tones may be left out of both, as the kind allows (Kind.Omit), but not so much that nothing
// tells the chord from a plainer one.

// RightNames returns the names that somebody who sees or hears pitches may give them. The root sounds. A name of which
// tones are left out is right only if no complete chord of the same root sounds, and none of a commoner kind on another: A C♯ F♯
// is F♯m, and not A6 without its fifth. The bass is not asked about. The plainest name comes first.
func RightNames(pitches []Pitch) []Naming {
	all := Name(pitches, Context{NoBass: true, All: true})
	var out []Naming
	for _, n := range all {
		if n.Chord.Without == 0 || n.why&(rootMissing|thirdMissing) == 0 && !plainerSounds(all, n) {
			out = append(out, n)
		}
	}
	return out
}

// plainerSounds reports whether one of the names is a complete chord of the same root as an incomplete one, or of a
// commoner kind.
func plainerSounds(all []Naming, incomplete Naming) bool {
	for _, n := range all {
		if n.Chord.Without != 0 {
			continue
		}
		if n.Chord.Root.Same(incomplete.Chord.Root) || n.Chord.Kind.index < incomplete.Chord.Kind.index {
			return true
		}
	}
	return false
}

// Serves reports whether pitches may stand for a chord that was asked for. They have every tone that its kind may not
// lose, and no other; what may be lost with the chord's own Without is lost as well. At least one tone tells a chord of
// four tones or more from a triad of the same notes: A C E alone is no C6. The bass is not asked about.
func Serves(pitches []Pitch, c Chord) bool {
	var set classes
	for _, p := range pitches {
		set |= 1 << mod(p.MIDI(), 12)
	}
	if len(c.Kind.Formula) > 3 && isTriad(set) {
		return false
	}
	own := set.from(c.Root.Class())
	return own&^c.Kind.sounding(0) == 0 && c.Kind.sounding(c.mayLose())&^own == 0 && bits.OnesCount16(uint16(own)) >= 2
}

// mayLose returns the tones that may be left out of a chord.
func (c Chord) mayLose() ToneSet {
	out := c.Without
	for n, tone := range c.Kind.Formula {
		for _, may := range c.Kind.Omit {
			if tone == may {
				out |= 1 << n
			}
		}
	}
	return out
}

// isTriad reports whether pitch classes are all the tones of a triad, plain or suspended, on whatever root.
func isTriad(set classes) bool {
	table := allHearings()
	for root := range 12 {
		from, to := table.of(set.from(root))
		for n := from; n < to; n++ {
			if h := &table.all[n]; h.without == 0 && len(h.kind.Formula) == 3 {
				return true
			}
		}
	}
	return false
}

// lacks returns the tones left out that the chord's kind may not lose, so that they have to be said: the third of C7(no3).
func (c Chord) lacks() ToneSet {
	if c.Without == 0 {
		return 0
	}
	return c.Without &^ Chord{Kind: c.Kind}.mayLose()
}
