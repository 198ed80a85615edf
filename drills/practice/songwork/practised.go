package songwork

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/harmony"
	"sparetone/drills/neck"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// Practised returns what practice of the song is held to: its chords, in its shapes, plain and coloured, in its key. Items are the ids of
// what is asked of it, for which what is learnt counts.
func (w *Work) Practised() (hold neck.Hold, items []string) {
	hold = neck.Hold{Key: &w.Key}
	add := func(c theory.Chord, s fret.Shape) {
		i := slices.IndexFunc(hold.Chords, func(h neck.HeldChord) bool { return h.Kind == c.Kind && h.Root.Same(c.Root) })
		if i < 0 {
			i = len(hold.Chords)
			hold.Chords = append(hold.Chords, neck.HeldChord{Chord: theory.NewChord(c.Root, c.Kind)})
		}
		if h := &hold.Chords[i]; !slices.ContainsFunc(h.Shapes, func(o fret.Shape) bool { return slices.Equal(o, s) }) {
			h.Shapes = append(h.Shapes, s)
		}
	}
	for _, p := range w.Places {
		if p.Rests() {
			continue
		}
		if n := len(hold.Loop); n == 0 || hold.Loop[n-1] != p.Chord {
			hold.Loop = append(hold.Loop, p.Chord)
		}
		add(p.Chord, p.Plain.Shape)
		c := p.Path.Colour
		if c == nil {
			add(p.Chord, p.Path.Shape)
			continue
		}
		add(p.Chord, c.From)
		add(c.Chord, c.Shape)
		move := neck.HeldMove{Plain: theory.NewChord(p.Chord.Root, p.Chord.Kind), Coloured: c.Chord, From: c.From, To: c.Shape}
		if !slices.ContainsFunc(hold.Moves, func(m neck.HeldMove) bool { return slices.Equal(m.From, move.From) && slices.Equal(m.To, move.To) }) {
			hold.Moves = append(hold.Moves, move)
		}
	}
	return hold, w.items(hold)
}

// items are what is asked of the song: of its kinds of chords whatever is asked of a kind, of its colours what they add, which note
// is doubled, and which chord of its loop was coloured, and with what.
func (w *Work) items(hold neck.Hold) (items []string) {
	on, err := w.player.Chosen().Instrument()
	if err != nil {
		return nil
	}
	kinds, added := map[string]bool{}, map[string]bool{}
	for _, c := range hold.Chords {
		kinds[c.Kind.ID] = true
	}
	for _, m := range hold.Moves {
		added[m.Coloured.Kind.ID] = true
	}
	for _, d := range catalogue.All() {
		for _, t := range d.Targets(on.HeldTo(hold)) {
			asked := map[string]bool{"kind": kinds[t.Topic.ID], "resolution": kinds[t.Topic.ID], "addition": added[t.Topic.ID], "doubled": true, "progression": harmony.Colours(t.ID)}
			if asked[t.Topic.Of] {
				items = append(items, drills.ItemID(d.About().ID, t.ID, on.Name()))
			}
		}
	}
	return items
}
