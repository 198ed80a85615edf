package arrange

import (
	"slices"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// WithoutBass is a chord over another note than its root that is far easier without it.
type WithoutBass struct {
	Chord, Alone theory.Chord
	Shape        fret.Shape // the easiest of Alone
}

// muchHarder is by how much more effort a chord over another note is told to be hard: three times what makes a colour harder. From judgement.
const muchHarder = 3 * mostHarder

// WithoutBass lists the chords over another note whose plain shape asks far more than one without that note, each once. On a ukulele, which
// has no low strings, such a shape lies far up the neck; where something else plays the bass nobody holds it (common practice, no source).
func (a Arrangement) WithoutBass() (out []WithoutBass) {
	for _, p := range a.Places {
		if p.Rests() || p.Chord.Bass == p.Chord.Root || slices.ContainsFunc(out, func(w WithoutBass) bool { return w.Chord == p.Chord }) {
			continue
		}
		alone := theory.NewChord(p.Chord.Root, p.Chord.Kind)
		shapes := plainShapes(a.Tuning, alone)
		if len(shapes) > 0 && hundredths(p.Plain.Effort) > shapes[0].effort+hundredths(muchHarder) {
			out = append(out, WithoutBass{p.Chord, alone, shapes[0].grip.shape})
		}
	}
	return out
}

// Said says it: "F/A asks for A as its lowest note; where something else plays that, F is far easier: 2010".
func (w WithoutBass) Said() say.Text {
	return say.Of("{} asks for {} as its lowest note; where something else plays that, {} is far easier: {}", say.Chord(w.Chord), say.Note(w.Chord.Bass), say.Chord(w.Alone), say.Shape(w.Shape))
}
