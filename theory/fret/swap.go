package fret

import (
	"cmp"
	"slices"

	"sparetone/theory"
)

// Swap is one string of a shape moved from one fret to another, so that the chord gains a note it did not have. What
// the string sounded before is a doubled note, which another string still has: the spare one. Or it is the only
// third, and the chord is then suspended.
type Swap struct {
	From, To         Shape
	String           int // number of the string that moves
	FromFret, ToFret int
	Chord            theory.Chord    // what To is, on the root of the chord it came from
	Adds             theory.Interval // what the string sounds after, above the root
	GivesUp          theory.Interval // what it sounded before
	Spare            bool            // what is given up still sounds on another string
	Effort           float64         // what To asks of the hand, as Finger measures it
	Lowest           bool            // the new note is the lowest that sounds
	Standing         theory.Standing // of what the added note sounds in the key; OfScale if no key is given
	InKeyAs          theory.Note     // that note as the key spells it; as the chord does if it is outside or no key is given
	Rubs             theory.Interval // the tone of Chord that it rubs against (theory.Chord.Rubs), not valid if none
}

// InKey reports whether the added note is of the key; true if none was given.
func (s Swap) InKey() bool { return s.Standing != theory.Outside }

// Rubbing reports whether the added note rubs against a tone of the chord.
func (s Swap) Rubbing() bool { return s.Rubs != theory.Interval{} }

// farthest is how many frets a string's stop moves in a swap at the most: more is a leap of the hand and no finger's move.
const farthest = 4

// Swaps returns every way to move one string of a shape to a note that the chord can take on (theory.Kind.Adds),
// giving up a doubled note, or to suspend the chord, giving up its only third. On an instrument with a bass a root in the
// bass stays there. Those that stay in the key come first, and of those the easiest. It returns none if the shape does
// not fit the tuning.
func Swaps(t *Tuning, s Shape, c theory.Chord, key *theory.Key) []Swap {
	v, err := Voice(t, s, c)
	if err != nil {
		return nil
	}
	missing, takes := v.Missing(), takes(c.Kind)
	rooted := t.HasBass() && mod(t.lowest(s), 12) == c.Root.Class()
	var out []Swap
	to := slices.Clone(s)
	for i, st := range v.Strings {
		third := st.Interval == theory.MajorThird || st.Interval == theory.MinorThird
		if st.Fret == Muted || st.Foreign || !st.Doubled && !third {
			continue
		}
		for f := 0; f <= min(t.Frets, DefaultHand.MaxFret); f++ {
			if f > 0 && f <= t.Start(i) {
				continue
			}
			above := theory.Interval{Number: 1, Semitones: t.MIDI(i, f) - c.Root.Class()}
			to[i] = f
			if !takes[mod(above.Semitones, 12)] || !t.reaches(to) || max(f-st.Fret, st.Fret-f) > farthest {
				continue
			}
			low := t.lowest(to)
			if rooted && mod(low, 12) != c.Root.Class() {
				continue
			}
			chord, ok := becomes(t, to, c, missing)
			if !ok {
				continue
			}
			adds, _ := chord.Kind.Tone(above)
			if suspends := adds.Number == 2 || adds.Number == 4; !st.Doubled && !suspends || !c.Kind.Adds(adds) {
				continue
			}
			_, _, effort, ok := Finger(to)
			if !ok {
				continue
			}
			note, standing := c.Root.Up(adds), theory.OfScale
			rubs, _ := chord.Rubs(note)
			if key != nil {
				standing, note = key.StandingBySound(note)
			}
			out = append(out, Swap{
				From: s, To: slices.Clone(to), String: st.Number, FromFret: st.Fret, ToFret: f, Chord: chord,
				Adds: adds, GivesUp: st.Interval, Spare: st.Doubled, Effort: effort,
				Lowest: low == t.MIDI(i, f), Standing: standing, InKeyAs: note, Rubs: rubs,
			})
		}
		to[i] = st.Fret
	}
	slices.SortStableFunc(out, func(a, b Swap) int {
		if a.InKey() != b.InKey() {
			if a.InKey() {
				return -1
			}
			return 1
		}
		return cmp.Compare(a.Effort, b.Effort)
	})
	return out
}

// lowest returns the MIDI number of the lowest note that a shape sounds.
func (t *Tuning) lowest(s Shape) int {
	low := none
	for i, f := range s {
		if f != Muted {
			low = min(low, t.MIDI(i, f))
		}
	}
	return low
}

// takes tells of each pitch class above the root whether a kind of chord can take on a tone there, however it is
// spelled.
func takes(k *theory.Kind) (out [12]bool) {
	for number := range 7 {
		for class := range out {
			out[class] = out[class] || k.Adds(theory.Interval{Number: number + 1, Semitones: class})
		}
	}
	return out
}

// becomes returns the plainest name of a shape on the root of the chord it came from, without tones that the chord did
// not lack before.
func becomes(t *Tuning, to Shape, from theory.Chord, missing []theory.Interval) (theory.Chord, bool) {
	for _, n := range Names(t, to, theory.Context{All: true}) {
		lacks := func(i theory.Interval) bool { return !slices.Contains(missing, i) }
		if n.Chord.Root.Same(from.Root) && !slices.ContainsFunc(n.Chord.Missing(), lacks) {
			c := n.Chord
			if tone, ok := c.Kind.Tone(c.Root.To(c.Bass)); ok {
				c.Bass = from.Root.Up(tone)
			}
			c.Root = from.Root
			return c, true
		}
	}
	return theory.Chord{}, false
}

// reaches reports whether a hand reaches all stops of a shape together.
func (t *Tuning) reaches(s Shape) bool {
	lo, hi := lowestStop(s), 0
	for _, f := range s {
		hi = max(hi, f)
	}
	return lo == 0 || hi <= t.Reach(lo)
}
