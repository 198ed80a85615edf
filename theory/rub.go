package theory

// Rubs returns the tone of a chord that a note rubs against when both sound: one that lies a semitone below it, or a
// semitone above it with the same letter. It is not ok if there is none. Common practice, no source; a note a semitone
// below a tone, as a major seventh is below the root, is not heard so.
func (c Chord) Rubs(n Note) (tone Interval, ok bool) {
	for i, t := range c.Kind.Formula {
		own := c.Root.Up(t)
		if c.Without.Has(i) || own == n {
			continue
		}
		if above := mod(n.Class()-own.Class(), 12); above == 1 || above == 11 && own.Letter == n.Letter {
			return t, true
		}
	}
	return Interval{}, false
}

// HarmonicNotes returns the seven notes of a minor key from its tonic up, with the raised seventh; of a major key those
// that Notes does.
func (k Key) HarmonicNotes() []Note {
	out := k.Notes()
	out[6] = k.Tonic.Up(MajorSeventh)
	return out
}
