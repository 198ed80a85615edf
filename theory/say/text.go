// Package say holds sentences before they are printed: wording with places for facts, and the facts (notes, chords,
// tones, strings, shapes, counts) as values. One printer writes a sentence for the screen, one as it is said aloud and
// one for paper, each from the facts. So nobody reads a printed sentence to find out what it is about.
package say

import "strings"

// Text is a sentence, or a part of one, before it is printed. The zero Text says nothing.
type Text struct {
	form  string // wording, with a slot {} for each fact in turn
	facts []Fact
}

// slot is where a fact goes in wording.
const slot = "{}"

// Of makes a text of wording that has a slot, written {}, for each of the facts in turn: Of("{} is {}.", Note(n),
// Role(i)). It panics if there are more slots than facts or fewer: that is a slip in wording, which any test meets.
func Of(form string, facts ...Fact) Text {
	if strings.Count(form, slot) != len(facts) {
		panic("say: " + form + ": not as many facts as places")
	}
	return Text{form, facts}
}

// Sentence makes a text as Of does, that begins with a capital letter whatever it begins with.
func Sentence(form string, facts ...Fact) Text { return Of(slot, capital{Of(form, facts...)}) }

// IsZero reports whether a text says nothing.
func (t Text) IsZero() bool { return t.form == "" }

// Screen writes the text as it is read: F♯m7, 0003, vii°.
func (t Text) Screen() string { return t.on(screen) }

// Aloud writes the text as it is said, with signs and symbols in words and frets one by one, for screen readers:
// F sharp minor seventh, 0 0 0 3, seven diminished.
func (t Text) Aloud() string { return t.on(aloud) }

// Sheet writes the text for a sheet of paper in Markdown: as it is read, with signs that mean something in Markdown
// escaped in what is not our own wording.
func (t Text) Sheet() string { return t.on(sheet) }

// Words counts the words that it takes to say the text aloud.
func (t Text) Words() int { return len(strings.Fields(t.Aloud())) }

// String is Screen, for messages and tests.
func (t Text) String() string { return t.Screen() }

// Equal reports whether two texts say the same, to the eye and to the ear.
func (t Text) Equal(other Text) bool {
	return t.Screen() == other.Screen() && t.Aloud() == other.Aloud()
}

func (t Text) on(f face) string {
	if len(t.facts) == 0 {
		return t.form
	}
	p := printer{face: f}
	t.print(&p)
	return p.b.String()
}

func (t Text) print(p *printer) {
	rest := t.form
	for _, f := range t.facts {
		before, after, _ := strings.Cut(rest, slot)
		p.write(before)
		f.print(p)
		rest = after
	}
	p.write(rest)
}
