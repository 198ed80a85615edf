package neck

import "sparetone/theory/fret"

// Unheard is where fingers are on a neck, not heard as any chord.
func Unheard(t *fret.Tuning, s fret.Shape) fret.Voicing {
	v := fret.Voicing{Tuning: t, Shape: s, Strings: make([]fret.StringTone, len(s))}
	for i, f := range s {
		v.Strings[i] = fret.StringTone{Number: t.StringNumber(i), Fret: f}
	}
	return v
}
