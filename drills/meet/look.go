package meet

import (
	"slices"

	"sparetone/drills"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Look is one thing of a meeting that is heard by itself: a chord, an interval, or a whole row of chords.
type Look struct {
	Name   say.Text
	Sounds []drills.Sound
	After  []drills.Sound // what it is heard after, where it says nothing without: a note after its chord, or where a chord goes after that
	Shape  *fret.Voicing  // how it is held; nil where no one shape makes it
	Mark   int            // number of the string that tells it from the look before it, or from the next; 0 if there is not one
	Beside bool           // it is what the target is told from
}

// fewSounds is how many sounds what a target is told from has at the most where each of them can be heard by itself. More are one row.
const fewSounds = 2

// Looks lists what can be heard by itself, in the order in which it is met: the target's own sounds, then what it is told from.
func (m *Meeting) Looks() []Look {
	var out []Look
	for _, h := range m.Heard {
		out = append(out, lookOf(h))
	}
	if b := m.Beside; b != nil && len(b.Heard) > fewSounds {
		row := Look{Name: b.Name, Beside: true}
		for _, h := range b.Heard {
			row.Sounds = append(row.Sounds, labelled(h))
		}
		out = append(out, row)
	} else if b != nil {
		var alike []drills.Sound // how they begin alike
		for _, h := range b.Heard {
			if slices.ContainsFunc(m.Heard, func(own Heard) bool { return slices.Equal(own.Sound.Notes, h.Sound.Notes) }) {
				alike = append(alike, labelled(h))
				continue
			}
			look := lookOf(h)
			if look.Beside = true; b.Answer || isNote(look) {
				look.After = alike
			}
			out = append(out, look)
		}
	}
	for i := 1; i < len(out); i++ {
		switch goes := i == len(m.Heard)-1 && m.Beside != nil && m.Beside.Answer; {
		case out[i].Beside:
		case goes:
			out[i].After = out[i-1].Sounds
		case isNote(out[i]):
			out[i].After = out[0].Sounds
		}
		if n := onlyMoved(out[i-1].Shape, out[i].Shape); n != 0 {
			out[i].Mark = n
			if out[i-1].Mark == 0 {
				out[i-1].Mark = n
			}
		}
	}
	return out
}

// isNote reports whether a look is one note.
func isNote(l Look) bool { return len(l.Sounds) == 1 && len(l.Sounds[0].Notes) == 1 }

// ByItself is what a look sounds like where no other was heard just before it.
func (l Look) ByItself() []drills.Sound { return slices.Concat(l.After, l.Sounds) }

// First is the look that shows first: the target itself, where it is one sound after a plain one, or after a note that no shape shows.
func (m *Meeting) First() int {
	looks := m.Looks()
	if len(m.Heard) == fewSounds && onlyMoved(looks[0].Shape, looks[1].Shape) != 0 {
		return 1
	}
	return max(0, slices.IndexFunc(looks[:len(m.Heard)], func(l Look) bool { return l.Shape != nil }))
}

func lookOf(h Heard) Look {
	return Look{Name: h.Name, Sounds: []drills.Sound{labelled(h)}, Shape: h.Shape}
}

// labelled is a sound with its name.
func labelled(h Heard) drills.Sound {
	h.Sound.Label = h.Name
	return h.Sound
}

// Moved says which string tells the looks apart that show first; zero if it is not one.
func (m *Meeting) Moved() say.Text {
	looks := m.Looks()
	for i := 1; i < len(looks); i++ {
		a, b := looks[i-1], looks[i]
		n := onlyMoved(a.Shape, b.Shape)
		if n == 0 {
			continue
		}
		if a.Shape.Chord.Symbol() == b.Shape.Chord.Symbol() {
			return sayOtherString(n, *a.Shape, *b.Shape)
		}
		if b.Beside { // the target is what it goes to
			a, b = b, a
		}
		return sayMovedString(n, *a.Shape, *b.Shape)
	}
	return say.Text{}
}

// Row names the chords of a target that is a row of them after its key: where not all are known those that are, by their place; nil if
// it is no row.
func (m *Meeting) Row() []say.Text {
	if len(m.Heard) <= fewSounds+1 {
		return nil
	}
	var placed, chords []say.Text
	for _, h := range m.Heard[1:] {
		if h.Shape != nil {
			placed, chords = append(placed, h.Name), append(chords, say.Of("{}", say.Chord(h.Shape.Chord)))
		}
	}
	if len(chords) < len(m.Heard)-1 {
		return placed
	}
	return chords
}

// Held says how each look is held, for whoever sees no picture.
func (m *Meeting) Held() []say.Text {
	var out []say.Text
	for _, l := range m.Looks() {
		if l.Shape == nil {
			continue
		}
		said := sayHeld(l.Name, l.Shape.Shape)
		if !slices.ContainsFunc(out, said.Equal) {
			out = append(out, said)
		}
	}
	return out
}

// Under says what stands under its shapes where that is asked for and no name of theirs says it: which tone each string is, or which
// notes there are. Else it is nothing.
func (m *Meeting) Under() []say.Text {
	switch {
	case m.Ears || !slices.Contains([]string{"spell", "shape-tones"}, m.Drill):
		return nil
	case m.Drill == "spell":
		return m.Facts
	}
	var out []say.Text
	for _, l := range m.Looks() {
		if l.Shape == nil {
			continue
		}
		var tones []theory.Interval
		for _, s := range l.Shape.Strings {
			if s.Fret != fret.Muted {
				tones = append(tones, s.Interval)
			}
		}
		out = append(out, sayStringByString(l.Name, tones))
	}
	return out
}

// MadeOf says what the target is made of, and what tells it from the other, in the words of the trade.
func (m *Meeting) MadeOf() say.Text {
	lines := slices.Clone(m.Facts)
	if m.Beside != nil && !m.Beside.Contrast.IsZero() {
		lines = append(lines, m.Beside.Contrast)
	}
	return sayLines(lines)
}
