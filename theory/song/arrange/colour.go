package arrange

import (
	"cmp"
	"slices"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// A colour is looked for from every plain shape of a chord in reach, not from the easiest alone: one string goes to a note that
// the chord can take on. Its root and its third still sound, and its fifth where there are strings enough. What is given up is a
// doubled note; where no colour of the key comes of that within reach, it may be the fifth, or the third of a chord
// that is then suspended, and that is said. Best is what asks little of the hand, is of the key, rubs against nothing and leads
// on. Common practice, no source.

// Colour is a shape of a chord with a note added.
type Colour struct {
	Shape    fret.Shape
	Fingers  []int // as fret.Found has them
	Barre    int
	Effort   float64         // what the shape asks of the hand
	From     fret.Shape      // the plain shape of which one string is moved
	Chord    theory.Chord    // what it is, on the root of the plain chord
	String   int             // number of the string that is moved
	Adds     theory.Interval // above the root
	GivesUp  theory.Interval // what the string sounded
	Lost     bool            // what is given up sounds on no other string
	Standing theory.Standing // of the added note in the key, by its sound
	Rubs     theory.Interval // the tone of Chord that the added note lies a semitone above, not valid if none
	Harder   bool            // it asks more than mostHarder more than the plain shape
	Leads    Lead
}

// Lead is where the added note goes as the next chord comes.
type Lead int

// The ways on.
const (
	Leaps Lead = iota // neither of these
	Steps             // a string of the next chord sounds a note one or two semitones away
	Stays             // a string of the next chord sounds it
)

// InKey reports whether the added note is of the key.
func (c Colour) InKey() bool { return c.Standing != theory.Outside }

// Rubbing reports whether the added note lies a semitone above a tone of the chord.
func (c Colour) Rubbing() bool { return c.Rubs != theory.Interval{} }

// Good reports whether nothing speaks against a colour but that it may rub: it is of the key, loses nothing, and asks little
// more than the plain shape.
func (c Colour) Good() bool { return c.InKey() && !c.Lost && !c.Harder }

const (
	mostHarder  = 2.0 // how much more than the plain shape a colour may ask of the hand
	mostMoved   = 4   // frets that a string's stop moves at the most
	fromHarder  = 6.0 // how much more than the plain shape those may ask of the hand from which colours are looked for
	fromShapes  = 40  // from how many plain shapes they are looked for
	mostColours = 24  // how many are offered of a chord
)

// What speaks against a colour, beside what it asks of the hand, in the same measure. From judgement.
const (
	againstRub     = 0.8
	againstLost    = 20.0
	againstOutside = 40.0
	againstHarder  = 10.0
	againstLeap    = 1.0
	againstStep    = 0.3
	againstOther   = 0.4 // for each string that lies otherwise than in the plain shape, beside the one that is moved
)

// against is what speaks against a colour of a chord whose plain shape is held.
func (c Colour) against(plain fret.Shape) float64 {
	sum := c.Effort
	for _, f := range []struct {
		so     bool
		weight float64
	}{
		{c.Rubbing(), againstRub}, {c.Lost, againstLost}, {!c.InKey(), againstOutside}, {c.Harder, againstHarder},
		{c.Leads == Leaps, againstLeap}, {c.Leads == Steps, againstStep},
	} {
		if f.so {
			sum += f.weight
		}
	}
	others := -1
	for i, f := range c.Shape {
		if f != plain[i] {
			others++
		}
	}
	return sum + againstOther*float64(others)
}

// Colours returns the colours of a chord in a key, the best first. plain is the shape that is held where the chord is plain, and
// next the one that follows, nil if none does.
func Colours(t *fret.Tuning, c theory.Chord, k theory.Key, plain, next fret.Shape) []Colour {
	_, _, effort, ok := fret.Finger(plain)
	if !ok {
		return nil
	}
	f := &finder{t: t, c: c, k: k, plain: plain, next: next, most: effort + mostHarder, seen: map[string]bool{}}
	from := []fret.Shape{plain}
	for _, found := range fret.Easiest(t, c, fret.DefaultHand, fret.Wish{Most: fromShapes, Effort: effort + fromHarder, Needs: needed(t, c)}) {
		if !slices.Equal(found.Shape, plain) {
			from = append(from, found.Shape)
		}
	}
	for _, shape := range from {
		f.from(shape)
	}
	out := f.out
	if slices.ContainsFunc(out, Colour.Good) {
		out = slices.DeleteFunc(out, func(c Colour) bool { return c.Lost })
	}
	slices.SortStableFunc(out, func(a, b Colour) int { return cmp.Compare(a.against(plain), b.against(plain)) })
	return out[:min(mostColours, len(out))]
}

// finder looks for colours.
type finder struct {
	t           *fret.Tuning
	c           theory.Chord
	k           theory.Key
	plain, next fret.Shape
	most        float64 // what a colour may ask of the hand
	seen        map[string]bool
	out         []Colour
}

// from finds the colours that come of a plain shape by moving one string.
func (f *finder) from(shape fret.Shape) {
	v, err := fret.Voice(f.t, shape, f.c)
	if err != nil {
		return
	}
	held := slices.Equal(shape, f.plain)
	to := slices.Clone(shape)
	for i, s := range v.Strings {
		if s.Fret == fret.Muted || s.Foreign {
			continue
		}
		for at := max(0, s.Fret-mostMoved); at <= min(s.Fret+mostMoved, f.t.Frets, fret.DefaultHand.MaxFret); at++ {
			if at == s.Fret || at > 0 && at <= f.t.Start(i) {
				continue
			}
			to[i] = at
			if c, ok := f.colour(v, i, to); ok && !f.seen[to.String()] && (held || !c.Harder && c.InKey() && !c.Lost) {
				f.seen[to.String()] = true
				c.From, c.Shape = shape, slices.Clone(to)
				f.out = append(f.out, c)
			}
		}
		to[i] = s.Fret
	}
}

// colour returns what comes of moving the string at an index, if that is a colour.
func (f *finder) colour(v fret.Voicing, i int, to fret.Shape) (out Colour, ok bool) {
	s := v.Strings[i]
	above := f.addable(f.t.MIDI(i, to[i]))
	if above == (theory.Interval{}) {
		return out, false
	}
	formula := append(slices.Clone(f.c.Kind.Formula), above)
	out = Colour{String: s.Number, GivesUp: s.Interval, Lost: !s.Doubled}
	if out.Lost {
		suspends := above.Number == 2 || above.Number == 4
		switch {
		case s.Interval.Number == 3 && suspends && len(f.c.Kind.Formula) == 3:
			formula = slices.DeleteFunc(formula, func(i theory.Interval) bool { return i == s.Interval })
		case s.Interval == theory.PerfectFifth && len(formula) > len(f.t.Strings): // there is no room for it
		default:
			return out, false
		}
	}
	kind, known := theory.KindByFormula(formula)
	if !known {
		return out, false
	}
	out.Chord = theory.Chord{Root: f.c.Root, Kind: kind, Bass: f.c.Bass}
	out.Adds, _ = kind.Tone(above)
	heard, err := fret.Voice(f.t, to, out.Chord)
	if err != nil || !f.keepsBass(v, heard, i) {
		return out, false
	}
	for _, missing := range heard.Missing() {
		out.Chord.Without |= 1 << slices.Index(kind.Formula, missing)
	}
	if !f.keepsTones(v, heard, out) || !f.named(to, out.Chord) {
		return out, false
	}
	var holds bool
	if out.Fingers, out.Barre, out.Effort, holds = fret.Finger(to); !holds || !fits(f.t, to) {
		return out, false
	}
	out.Harder = out.Effort > f.most
	note := out.Chord.Root.Up(out.Adds)
	out.Standing, _ = f.k.StandingBySound(note)
	out.Rubs, _ = out.Chord.Rubs(note)
	out.Leads = f.leads(f.t.MIDI(i, to[i]))
	return out, true
}

// named reports whether the naming engine has a chord among the right names of a shape: 0200 is Em7 with a fourth by its
// tones, but nobody would call it so.
func (f *finder) named(s fret.Shape, c theory.Chord) bool {
	return slices.ContainsFunc(fret.Names(f.t, s, theory.Context{Key: &f.k, All: true}), func(n theory.Naming) bool {
		return n.Chord.Kind == c.Kind && n.Chord.Root.Same(c.Root)
	})
}

// addable returns what a pitch is above the root as a tone that the chord can take on, as the key spells it if it has it; the
// zero Interval if it can take on none.
func (f *finder) addable(midi int) theory.Interval {
	class := ((midi-f.c.Root.Class())%12 + 12) % 12
	var found theory.Interval
	for number := 2; number <= 7; number++ {
		tone := theory.Interval{Number: number, Semitones: class}
		if !f.c.Kind.Adds(tone) {
			continue
		}
		if found == (theory.Interval{}) || f.k.Standing(f.c.Root.Up(tone)) != theory.Outside {
			found = tone
		}
	}
	return found
}

// keepsBass reports whether the lowest note is still what it was, and not the added one, on an instrument with a bass or where a bass is
// asked for, as in D/F♯.
func (f *finder) keepsBass(before, after fret.Voicing, i int) bool {
	if !f.t.HasBass() && f.c.Bass == f.c.Root {
		return true
	}
	return lowest(before) == lowest(after) && lowest(after) != i
}

// lowest returns the index of the string that sounds the lowest note.
func lowest(v fret.Voicing) int {
	low := -1
	for i, s := range v.Strings {
		if s.Fret != fret.Muted && (low < 0 || s.Pitch.MIDI() < v.Strings[low].Pitch.MIDI()) {
			low = i
		}
	}
	return low
}

// keepsTones reports whether a colour sounds what the plain shape sounds, but for what it gives up.
func (f *finder) keepsTones(before, after fret.Voicing, c Colour) bool {
	missed := before.Missing()
	for _, tone := range after.Missing() {
		if !slices.Contains(missed, tone) && !(c.Lost && tone == c.GivesUp) {
			return false
		}
	}
	return true
}

// fits reports whether a hand reaches all stops of a shape together.
func fits(t *fret.Tuning, s fret.Shape) bool {
	low, high := 0, 0
	for _, f := range s {
		if f > 0 && (low == 0 || f < low) {
			low = f
		}
		high = max(high, f)
	}
	return low == 0 || high <= t.Reach(low)
}

// leads tells where a pitch goes as the next shape comes.
func (f *finder) leads(midi int) Lead {
	best := Leaps
	for i, at := range f.next {
		if at == fret.Muted {
			continue
		}
		switch d := f.t.MIDI(i, at) - midi; {
		case d == 0:
			return Stays
		case d >= -2 && d <= 2:
			best = Steps
		}
	}
	return best
}
