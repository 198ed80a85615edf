package lesson

import (
	"slices"

	"sparetone/drills/neck"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/song"
	"sparetone/theory/song/arrange"
)

// Sheet returns what a sheet shows of a lesson on an instrument: its chords with their shapes, each beside what one string makes of it, and
// its songs under them.
func (t Taught) Sheet() arrange.Arrangement {
	a := arrange.Arrangement{Tuning: t.On.Tuning, Capoed: true}
	a.Song.Header.Title = t.Name
	if t.Key != nil {
		a.Key = *t.Key
	}
	for _, h := range t.Hold.Chords {
		if slices.ContainsFunc(t.Hold.Moves, func(m neck.HeldMove) bool { return m.Coloured == h.Chord }) {
			continue // it stands beside the plain one
		}
		shapes := h.Shapes
		if len(shapes) == 0 {
			if s, ok := t.On.Easiest(h.Chord); ok {
				shapes = []fret.Shape{s}
			}
		}
		for _, s := range shapes {
			p := arrange.Place{Change: song.Change{Chord: h.Chord, Beats: 4}, Plain: heldAs(h.Chord, s)}
			p.Path = p.Plain
			for _, m := range t.Hold.Moves {
				if m.Plain == h.Chord && slices.Equal(m.From, s) {
					p.Path = t.coloured(m)
				}
			}
			a.Places = append(a.Places, p)
		}
	}
	for _, s := range t.Songs {
		a.Song.Sections = append(a.Song.Sections, s.Sections...)
		if len(t.Songs) == 1 {
			h := s.Header
			h.Title, h.Capo = t.Name, 0
			a.Song.Header = h
		}
	}
	return a
}

// heldAs is a shape as it is held.
func heldAs(c theory.Chord, s fret.Shape) arrange.Held {
	fingers, barre, effort, _ := fret.Finger(s)
	return arrange.Held{Shape: s, Fingers: fingers, Barre: barre, Effort: effort, Chord: c}
}

// coloured is what one string makes of a plain shape.
func (t Taught) coloured(m neck.HeldMove) arrange.Held {
	h := heldAs(m.Coloured, m.To)
	for _, s := range fret.Swaps(t.On.Tuning, m.From, m.Plain, t.Key) {
		if slices.Equal(s.To, m.To) {
			h.Colour = &arrange.Colour{Shape: m.To, Fingers: h.Fingers, Barre: h.Barre, Effort: h.Effort, From: m.From, Chord: m.Coloured,
				String: s.String, Adds: s.Adds, GivesUp: s.GivesUp, Lost: !s.Spare, Standing: s.Standing, Rubs: s.Rubs}
		}
	}
	return h
}
