// Package bench has what is tried out on the neck without being asked: the bench, where one holds a shape and changes it, and the
// chord to play on the instrument after practice.
package bench

import (
	"slices"
	"strings"

	"sparetone/drills"
	"sparetone/drills/neck"
	"sparetone/drills/wording"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/say"
)

// Grip is what a hand holds on the neck to try it out: a shape, what it is called, what each string is in
// it, and what one string moved would make of it. It is a value: every move returns another grip.
type Grip struct {
	fret.Voicing                // as heard under the name that is looked at; the zero Chord if it has none
	Names        []theory.Chord // its right names: the plainest, then those of which nothing is left out
	Swaps        []fret.Swap    // what one string moved makes of it, what stays in the key and is easy first
	Before       *fret.Voicing  // what it was before the swap that was taken last; nil if there was none
	Moved        int            // number of the string which that swap moved; 0 if there was none

	on    *neck.Instrument
	key   *theory.Key
	named int  // the name that is looked at
	alt   bool // it was read from alt, which is one chord of several
}

// NewGrip holds the easiest shape of C, or the open strings of an instrument that has none. Notes are
// spelled in a key such as F# or Am, and swaps that stay in it come first; a text that is no key is none.
func NewGrip(on *neck.Instrument, key string) Grip {
	g := Grip{on: on}
	if k, err := read.Key(key); err == nil {
		g.key = &k
	}
	if c, err := g.Read("C"); err == nil {
		return c
	}
	return g.Hold(make(fret.Shape, len(on.Tuning.Strings)))
}

// Hold puts the fingers on a shape of the instrument, heard as its plainest name.
func (g Grip) Hold(s fret.Shape) Grip {
	s = slices.Clone(s)
	v, names, err := fret.Hear(g.on.Tuning, s, theory.Context{Key: g.key})
	if err != nil { // every string is muted
		v = neck.Unheard(g.on.Tuning, s)
	}
	g = Grip{Voicing: v, on: g.on, key: g.key}
	for n, name := range names {
		if n == 0 || name.Chord.Without == 0 {
			g.Names = append(g.Names, name.Chord)
		}
	}
	return g.under(0)
}

// under hears the grip under one of its names, if it has that many.
func (g Grip) under(n int) Grip {
	if n >= len(g.Names) {
		return g
	}
	g.named = n
	if v, err := fret.Voice(g.Tuning, g.Shape, g.Names[n]); err == nil {
		g.Voicing = v
	}
	g.Swaps = fret.Swaps(g.Tuning, g.Shape, g.Chord, g.key)
	return g
}

// As hears the grip as a chord, if that is one of its right names.
func (g Grip) As(c theory.Chord) Grip {
	is := func(n theory.Chord) bool { return n.Kind == c.Kind && n.Root.Same(c.Root) }
	if n := slices.IndexFunc(g.Names, is); n >= 0 {
		return g.under(n)
	}
	for _, n := range fret.Names(g.Tuning, g.Shape, theory.Context{Key: g.key, All: true}) {
		if is(n.Chord) {
			g.Names = append(slices.Clip(g.Names), n.Chord)
			return g.under(len(g.Names) - 1)
		}
	}
	return g
}

// Read takes up what was typed: the easiest shape of a chord, or a fret for each string. The error says
// what is wrong with it.
func (g Grip) Read(text string) (Grip, error) {
	s, noShape := g.on.ReadShape(text)
	if noShape == nil {
		return g.Hold(s), nil
	}
	if text != "" && strings.ContainsAny(text[:1], "0123456789xX") {
		return g, noShape
	}
	c, alt, err := read.ChordOrAlt(text)
	if err != nil {
		return g, err
	}
	found := fret.Search(g.on.Tuning, c, g.on.Hand)
	if len(found) == 0 {
		return g, say.Wrong("{} has no shape here that a hand can hold", say.Chord(c))
	}
	g = g.Hold(found[0].Shape).As(c)
	g.alt = alt
	return g, nil
}

// NextName hears the grip under the next of its names, going round at the end.
func (g Grip) NextName() Grip {
	if len(g.Names) == 0 {
		return g
	}
	return g.under((g.named + 1) % len(g.Names))
}

// NextShape holds the next easiest shape of the chord, going round at the end.
func (g Grip) NextShape() Grip {
	if len(g.Names) == 0 {
		return g
	}
	c := g.Chord
	c.Without = 0
	found := fret.Search(g.on.Tuning, c, g.on.Hand)
	if len(found) == 0 {
		return g
	}
	n := slices.IndexFunc(found, func(f fret.Found) bool { return slices.Equal(f.Shape, g.Shape) })
	return g.Hold(found[(n+1)%len(found)].Shape).As(c)
}

// Swapped moves the string that one of the swaps moves, counted from 0.
func (g Grip) Swapped(n int) Grip {
	s, before := g.Swaps[n], g.Voicing
	g = g.Hold(s.To).As(s.Chord)
	g.Before, g.Moved = &before, s.String
	return g
}

// Back is the grip as it was before the swap that was taken last; the same if there was none.
func (g Grip) Back() Grip {
	if g.Before == nil {
		return g
	}
	return g.Hold(g.Before.Shape).As(g.Before.Chord)
}

// Told says what the grip is, a sentence a line: its name first.
func (g Grip) Told() []say.Text {
	if len(g.Names) == 0 {
		return []say.Text{nameless(g.Voicing)}
	}
	lines := []say.Text{wording.Titled(g.Chord)}
	if g.alt {
		lines = append(lines, say.Of("{}.", Altered))
	}
	if also := g.alsoCalled(); len(also) > 0 {
		lines = append(lines, sayAlso(also))
	}
	if missing := g.Missing(); len(missing) > 0 {
		lines = append(lines, sayLeft(missing))
	}
	for _, d := range g.Doubled() {
		lines = append(lines, sayOneSpare(g.Tuning, d))
	}
	if len(g.Doubled()) == 0 {
		lines = append(lines, sayNoneDoubled)
	}
	if g.Before != nil {
		lines = append(lines, sayCameFrom(g.Before.Chord))
	}
	return lines
}

// mostAlso is how many other names are told.
const mostAlso = 3

// alsoCalled lists the plainest of the grip's other names.
func (g Grip) alsoCalled() []theory.Chord {
	var out []theory.Chord
	for n, c := range g.Names {
		if n != g.named && len(out) < mostAlso {
			out = append(out, c)
		}
	}
	return out
}

// nameless says of strings that make no chord what they sound.
func nameless(v fret.Voicing) say.Text {
	var sounds []theory.Note
	for _, p := range v.Pitches() {
		if !slices.Contains(sounds, p.Note) {
			sounds = append(sounds, p.Note)
		}
	}
	switch len(sounds) {
	case 0:
		return sayAllMuted
	case 1:
		return sayAloneNoChord(sounds[0])
	}
	return sayNoName(sounds)
}

// Played is the grip played in a way; nothing if no string sounds.
func (g Grip) Played(how synth.How) []drills.Sound {
	return drills.Once(how, drills.Soundings(g.Voicing))
}

// Compared is plain and then coloured: the grip before and after one of its swaps, or, with n below 0,
// before and after the swap that was taken last. It is nothing if there is none.
func (g Grip) Compared(n int) []drills.Sound {
	switch {
	case n >= 0:
		return slices.Concat(g.Played(synth.Strum), g.Swapped(n).Played(synth.Strum))
	case g.Before != nil:
		return slices.Concat(drills.Once(synth.Strum, drills.Soundings(*g.Before)), g.Played(synth.Strum))
	}
	return nil
}
