package played

import (
	"math"
	"slices"
	"strings"

	"sparetone/synth/hear"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// Strings are the strings of a tuning to listen for, and what each may sound: every fret it has.
func Strings(t *fret.Tuning) (out []hear.String) {
	for i := range t.Strings {
		s := hear.String{Number: t.StringNumber(i), Open: t.MIDI(i, 0)}
		for f := t.Start(i); f <= t.Frets; f++ {
			s.May = append(s.May, t.MIDI(i, f))
		}
		out = append(out, s)
	}
	return out
}

// Pitches returns what each string of a shape sounds: a MIDI number, or hear.Silent.
func Pitches(t *fret.Tuning, s fret.Shape) []int {
	out := make([]int, len(s))
	for i, f := range s {
		out[i] = hear.Silent
		if f != fret.Muted {
			out[i] = t.MIDI(i, f)
		}
	}
	return out
}

// Shape returns the shape that sounds some pitches, a MIDI number or hear.Silent for each string.
func Shape(t *fret.Tuning, pitches []int) fret.Shape {
	shape := make(fret.Shape, len(pitches))
	for i, p := range pitches {
		if shape[i] = fret.Muted; p != hear.Silent {
			shape[i] = fretOf(t, i, p)
		}
	}
	return shape
}

// fretOf returns the fret at which the string at index i sounds a pitch, a MIDI number: 0 is open.
func fretOf(t *fret.Tuning, i, pitch int) int {
	if pitch <= t.MIDI(i, 0) {
		return 0
	}
	return t.Start(i) + pitch - t.MIDI(i, 0)
}

// easyShapes is how many shapes of a chord are looked for where no table says which ones players are taught.
const easyShapes = 2

// easyRoots and easyKinds are the chords of which they are looked for.
const easyRoots = "C4 Db4 D4 Eb4 E4 F4 F#4 G4 Ab4 A4 Bb4 B4"

var easyKinds = []string{"major", "minor", "dominant", "minor-seventh", "major-seventh"}

// Book returns the shapes that are played as a rule: those that players are taught, or the easiest of plain chords.
func Book(t *fret.Tuning) (out []fret.Shape) {
	add := func(s fret.Shape) {
		if !has(out, s) {
			out = append(out, s)
		}
	}
	lessons := fret.Lessons(t)
	for _, l := range lessons {
		for _, s := range l.Shapes {
			add(s)
		}
	}
	if len(lessons) > 0 {
		return out
	}
	for _, root := range strings.Fields(easyRoots) {
		pitch, err := theory.ParsePitch(root)
		if err != nil {
			panic("played: " + err.Error())
		}
		for _, id := range easyKinds {
			kind, ok := theory.KindByID(id)
			if !ok {
				panic("played: there is no kind of chord " + id)
			}
			for _, f := range fret.Easiest(t, theory.NewChord(pitch.Note, kind), fret.DefaultHand, fret.Wish{Most: easyShapes, Effort: math.Inf(1)}) {
				add(f.Shape)
			}
		}
	}
	return out
}

func has(all []fret.Shape, s fret.Shape) bool {
	return slices.ContainsFunc(all, func(o fret.Shape) bool { return slices.Equal(o, s) })
}
