package drills

import (
	"cmp"
	"slices"

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
func Takeaways(on *Instrument, may func(kind string) bool) []Takeaway {
	type move struct {
		Takeaway
		effort float64
	}
	var plain, coloured []move
	for _, id := range []string{"major", "minor"} {
		k := mustKind(id)
		for _, h := range on.shapesOf(k, 0) {
			v, err := h.voice(on)
			if err != nil || !may(id) && !slices.ContainsFunc(additionsTo(k), func(a addition) bool { return may(a.coloured) }) {
				continue
			}
			plain = append(plain, move{Takeaway{Plain: v}, h.effort})
			for _, s := range fret.Swaps(on.Tuning, h.shape, h.chord, nil) {
				if !may(s.Chord.Kind.ID) || s.Chord.Without != 0 || s.Effort > firstEffort || !IsAddition(k, s.Chord.Kind) || !oneFinger(v, s) {
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
func (t Takeaway) Shapes() []Reveal {
	name := func(v fret.Voicing) say.Text { return say.Of("{}", say.Chord(v.Chord)) }
	if t.Swap == nil {
		return []Reveal{{Caption: name(t.Plain), Voicing: t.Plain}}
	}
	return []Reveal{{Caption: name(t.Plain), Voicing: t.Plain}, {Caption: name(t.Coloured), Voicing: t.Coloured, Mark: t.Swap.String}}
}

// Told says what to play, a sentence a line.
func (t Takeaway) Told() []say.Text {
	if t.Swap == nil {
		return []say.Text{sayTakePlain(t.Plain)}
	}
	before, after := t.Plain.Strings[len(t.Plain.Strings)-t.Swap.String], t.Coloured.Strings[len(t.Plain.Strings)-t.Swap.String]
	return []say.Text{sayTakeColoured(t), sayGivesWay(before, after)}
}

// Sounds are the plain chord and what becomes of it, strummed in turn, each with its name.
func (t Takeaway) Sounds() []Sound {
	out := Once(synth.Strum, Soundings(t.Plain))
	out[0].Label = say.Of("{}", say.Chord(t.Plain.Chord))
	if t.Swap != nil {
		out = append(out, Once(synth.Strum, Soundings(t.Coloured))...)
		out[1].Label = say.Of("{}", say.Chord(t.Coloured.Chord))
	}
	return out
}

// Wording of what is taken to the instrument.

func sayTakePlain(v fret.Voicing) say.Text {
	return say.Of("Hold {}, and play it slowly, string by string, and then all at once.", say.Shape(v.Shape))
}

func sayTakeColoured(t Takeaway) say.Text {
	s := t.Swap
	on := say.String{On: t.Plain.Tuning, Number: s.String}
	var move say.Text
	switch {
	case s.ToFret == 0:
		move = say.Of("take the finger off the {} string", on)
	case s.FromFret == 0:
		move = say.Of("put a finger on the {} string at fret {}", on, say.Number(s.ToFret))
	default:
		move = say.Of("move the finger on the {} string from fret {} to fret {}", on, say.Number(s.FromFret), say.Number(s.ToFret))
	}
	return say.Of("Hold {}, {}, and {}: {}.", say.Chord(t.Plain.Chord), say.Shape(s.From), move, say.Shape(s.To))
}

func sayGivesWay(before, after fret.StringTone) say.Text {
	if before.Doubled {
		return say.Of("One {} becomes {}, {}; another {} stays.", say.Note(before.Pitch.Note), say.Note(after.Pitch.Note), say.Role(after.Interval), say.Note(before.Pitch.Note))
	}
	return say.Of("{}, {}, becomes {}, {}.", say.Note(before.Pitch.Note), say.Role(before.Interval), say.Note(after.Pitch.Note), say.Role(after.Interval))
}
