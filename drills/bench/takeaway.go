package bench

import (
	"cmp"
	"slices"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/neck"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Takeaway is a chord to play on the instrument itself: a shape that players meet first, and what one finger makes of it.
type Takeaway struct {
	Plain    fret.Voicing
	Coloured fret.Voicing // after the move; zero where there is none
	Swap     *fret.Swap   // the move; nil where the plain chord is all
}

// Takeaways lists what can be taken to an instrument, the easiest first: the plain shapes that players meet first, each with every move
// of one finger that gives it a note that the drills teach. Kinds tells which kinds of chord may come, by id; where no coloured
// one may, the plain chords are listed. A move is of one finger and leaves all others where they are.
func Takeaways(on *neck.Instrument, may func(kind string) bool) []Takeaway {
	type move struct {
		Takeaway
		effort float64
	}
	var plain, coloured []move
	for _, id := range []string{"major", "minor"} {
		k := chord.Kind(id)
		for _, h := range on.ShapesOf(k, 0) {
			v, err := h.Voice(on)
			if err != nil || !may(id) && !slices.ContainsFunc(chord.AdditionsTo(k), func(a chord.Addition) bool { return may(a.Coloured) }) {
				continue
			}
			plain = append(plain, move{Takeaway{Plain: v}, h.Effort})
			for _, s := range fret.Swaps(on.Tuning, h.Shape, h.Chord, nil) {
				if !may(s.Chord.Kind.ID) || s.Chord.Without != 0 || s.Effort > neck.FirstEffort || !chord.IsAddition(k, s.Chord.Kind) || !oneFinger(v, s) {
					continue
				}
				if to, err := fret.Voice(on.Tuning, s.To, s.Chord); err == nil {
					coloured = append(coloured, move{Takeaway{v, to, &s}, s.Effort})
				}
			}
		}
	}
	all := plain
	if len(coloured) > 0 {
		all = coloured
	}
	slices.SortStableFunc(all, func(a, b move) int { return cmp.Compare(a.effort, b.effort) })
	out := make([]Takeaway, len(all))
	for i, m := range all {
		out[i] = m.Takeaway
	}
	return out
}

// oneFinger reports whether a swap is made by one finger that nothing else rests on: it stops that string alone, and where it is put down
// or moved, the shape that comes of it can be held with the others where they were.
func oneFinger(from fret.Voicing, s fret.Swap) bool {
	before, after := from.Fingers(), fret.Voicing{Shape: s.To, Chord: s.Chord}.Fingers()
	if before == nil || after == nil {
		return false
	}
	at := len(before) - s.String
	alone := func(fingers []int) bool {
		return fingers[at] == 0 || !slices.Contains(slices.Delete(slices.Clone(fingers), at, at+1), fingers[at])
	}
	return alone(before) && alone(after)
}

// Chord is the chord to play.
func (t Takeaway) Chord() theory.Chord {
	if t.Swap != nil {
		return t.Coloured.Chord
	}
	return t.Plain.Chord
}

// Shapes are the shapes of the chord and of what it comes from, with the string that moves.
func (t Takeaway) Shapes() []drills.Reveal {
	name := func(v fret.Voicing) say.Text { return say.Of("{}", say.Chord(v.Chord)) }
	if t.Swap == nil {
		return []drills.Reveal{{Caption: name(t.Plain), Voicing: t.Plain}}
	}
	return []drills.Reveal{{Caption: name(t.Plain), Voicing: t.Plain}, {Caption: name(t.Coloured), Voicing: t.Coloured, Mark: t.Swap.String}}
}

// Told says what to play, a sentence a line.
func (t Takeaway) Told() []say.Text {
	if t.Swap == nil {
		return []say.Text{sayTakePlain(t.Plain)}
	}
	before, after := t.Plain.Strings[len(t.Plain.Strings)-t.Swap.String], t.Coloured.Strings[len(t.Plain.Strings)-t.Swap.String]
	stay := 0
	for _, s := range t.Coloured.Strings {
		if s.Fret != fret.Muted && s.Pitch.Class() == before.Pitch.Class() {
			stay++
		}
	}
	return []say.Text{sayTakeColoured(t.Plain, *t.Swap), sayGivesWay(before, after, stay)}
}

// Sounds are the plain chord and what becomes of it, strummed in turn, each with its name.
func (t Takeaway) Sounds() []drills.Sound {
	out := drills.Once(synth.Strum, drills.Soundings(t.Plain))
	out[0].Label = say.Of("{}", say.Chord(t.Plain.Chord))
	if t.Swap != nil {
		out = append(out, drills.Once(synth.Strum, drills.Soundings(t.Coloured))...)
		out[1].Label = say.Of("{}", say.Chord(t.Coloured.Chord))
	}
	return out
}

// Wording of what is taken to the instrument.
