package theory

// Addition is a note that a chord can take on.
type Addition struct {
	Interval Interval // above the root, as the formula of Makes has it
	Note     Note
	Makes    Chord // the chord with the note
}

// Adds reports whether a chord of the kind can take on a tone, whatever its octave: the second, the fourth, the
// sixth, and either seventh; the raised fourth over a major third; and over a dominant seventh the lowered and
// the raised second and the lowered sixth. A diminished triad takes the diminished seventh as well. Common
// practice, no source.
func (k *Kind) Adds(tone Interval) bool {
	if _, own := k.Tone(tone); own {
		return false
	}
	over := func(i Interval) bool { t, ok := k.Tone(i); return ok && t == i }
	dominant := over(MajorThird) && over(MinorSeventh)
	switch tone = tone.Simple(); tone {
	case MajorSecond, PerfectFourth, MajorSixth, MinorSeventh, MajorSeventh:
		return true
	case AugmentedFourth:
		return over(MajorThird)
	case DimSeventh:
		return over(DiminishedFifth)
	}
	return dominant && (tone == MinorSecond || tone == MinorSixth || tone == Interval{2, 3})
}

// Additions returns the notes of the key that a chord can take on, from the nearest above its root up. Notes
// with which the chord would be no kind of the table are not among them.
func (k Key) Additions(c Chord) []Addition {
	var out []Addition
	for degree := range 7 {
		for _, note := range k.Notes() {
			above := c.Root.To(note)
			if above.Number != degree+1 || !c.Kind.Adds(above) {
				continue
			}
			kind, ok := KindByFormula(append([]Interval{above}, c.Kind.Formula...))
			if !ok {
				continue
			}
			makes := Chord{Root: c.Root, Kind: kind, Bass: c.Bass}
			tone, _ := kind.Tone(above)
			out = append(out, Addition{tone, note, makes})
		}
	}
	return out
}
