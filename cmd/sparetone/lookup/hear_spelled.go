package lookup

import (
	"math"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// spelled returns what strings sound, spelled as the plainest name of their chord spells it; nothing for one that is silent.
func spelled(t *fret.Tuning, s fret.Shape) ([]*theory.Pitch, []theory.Naming) {
	out := make([]*theory.Pitch, len(s))
	v, names, err := fret.Hear(t, s, theory.Context{})
	if err != nil {
		return out, nil // all strings are silent
	}
	for i := range v.Strings {
		if v.Strings[i].Fret != fret.Muted {
			out[i] = &v.Strings[i].Pitch
		}
	}
	return out, names
}

// inParts rounds to one part in so many; what is nothing has no sign.
func inParts(x, parts float64) float64 { return math.Round(x*parts)/parts + 0 }
