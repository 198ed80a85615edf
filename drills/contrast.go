package drills

import (
	"slices"

	"sparetone/synth"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// ShapeOf is the index of the shape that makes a sound: of all its notes, or else of more; -1 if none does.
func (v Verdict) ShapeOf(s Sound) int {
	for _, makes := range []func(all []synth.Sounding) bool{
		func(all []synth.Sounding) bool { return slices.Equal(all, s.Notes) },
		func(all []synth.Sounding) bool {
			return !slices.ContainsFunc(s.Notes, func(n synth.Sounding) bool { return !slices.Contains(all, n) })
		},
	} {
		if i := slices.IndexFunc(v.Shapes, func(r Reveal) bool { return makes(Soundings(r.Voicing)) }); i >= 0 {
			return i
		}
	}
	return -1
}

// Called is what a sound is, now that it may be known: its label, or the caption of the shape whose notes it has. Two notes may sound in
// either order, so what their label says goes before that.
func (v Verdict) Called(s Sound) say.Text {
	if i := v.ShapeOf(s); i >= 0 && (v.Shapes[i].Voicing.Chord.Kind != nil || s.Label.IsZero()) && slices.Equal(Soundings(v.Shapes[i].Voicing), s.Notes) {
		return v.Shapes[i].Caption
	}
	if s.Label.IsZero() {
		return v.Expected
	}
	return s.Label
}

// Differing lists the numbers of the strings on which the two sides of the contrast differ, the first string of the tuning first:
// those that another note sounds on, or that only one side sounds. Of rows of chords they are those of the shapes a and b.
func Differing(a, b fret.Voicing) []int {
	var out []int
	for i, s := range a.Strings {
		if o := b.Strings[i]; s.Fret != o.Fret {
			out = append(out, s.Number)
		}
	}
	return out
}

// InTurn lists the strings of two single notes as they are heard, one after the other; nil where it is anything else that sounds, or
// both at once.
func (s Sound) InTurn() []int {
	plucks := s.Score.InTime()
	if len(plucks) != 2 || plucks[0].Damp == 0 { // of notes in turn each is stopped as the next begins
		return nil
	}
	return []int{plucks[0].String, plucks[1].String}
}

// Sounded lists the numbers of the strings that a sound plucks.
func (s Sound) Sounded() []int {
	var out []int
	for _, n := range s.Notes {
		if !slices.Contains(out, n.String) {
			out = append(out, n.String)
		}
	}
	return out
}

// SetContrast sets the last of what was asked against the last of what was answered.
func (v *Verdict) SetContrast() {
	if len(v.Asked) > 0 && len(v.Other) > 0 {
		v.Contrast = Contrast{v.Asked[len(v.Asked)-1:], v.Other[len(v.Other)-1:]}
	}
}

// Show adds the shape of what was answered, if it is not shown yet.
func (v *Verdict) Show(caption say.Text, made fret.Voicing) {
	if !slices.ContainsFunc(v.Shapes, func(r Reveal) bool { return slices.Equal(r.Voicing.Shape, made.Shape) }) {
		v.Shapes = append(v.Shapes, Reveal{Caption: caption, Voicing: made})
	}
}
