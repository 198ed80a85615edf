// Package sheet draws on paper: arranged songs, with the shapes of the chords, plain and coloured, and the bars with their words; and
// whatever else is text and necks. One geometry is drawn as SVG, as PDF and in an HTML page.
package sheet

import (
	"slices"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
	"sparetone/theory/song"
	"sparetone/theory/song/arrange"
)

// Options is how a sheet looks.
type Options struct {
	Paper Paper // the zero Paper is A4
	Left  bool  // necks for players who hold the neck in the right hand
	Large bool  // large print
}

// Paper is a size of paper, in points.
type Paper struct{ Width, Height float64 }

// The sizes of paper, in points of 1/72 inch: A4 by ISO 216, Letter by ANSI Y14.1.
var (
	A4     = Paper{595.28, 841.89}
	Letter = Paper{612, 792}
)

// paper returns the size of the paper.
func (o Options) paper() Paper {
	if o.Paper == (Paper{}) {
		return A4
	}
	return o.Paper
}

// largePrint is how much larger large print is. 18 points are large by the American Council of the Blind's guidelines (from
// memory); chords and words at 10 and 11 points come to that.
const largePrint = 1.7

// Scale is how much larger than usual print is.
func (o Options) Scale() float64 {
	if o.Large {
		return largePrint
	}
	return 1
}

// sheet is a song as a sheet shows it.
type sheet struct {
	opt   Options
	title string
	key   string
	hand  []string // picking and strum, a line each
	cards []card
	parts []part
	words []say.Text // what the shapes are, for whoever cannot see them
}

// card is a chord with its shapes.
type card struct {
	necks []neck   // one or two
	trade say.Text // what becomes what; zero without a colour
}

// neck is a shape as it is held and heard.
type neck struct {
	title   string
	voicing fret.Voicing
	fingers []int // nil for none
	left    bool
	first   int  // the first fret that is shown
	frets   int  // how many are
	bare    bool // under it stands how the strings are called, and neither notes nor degrees
}

// part is a section of the song.
type part struct {
	name  string
	lines [][]segment
}

// segment is a piece of a line that is not broken: a chord and the words under it, or a bar.
type segment struct{ above, below string }

// newSheet collects what a sheet shows of a song.
func newSheet(a arrange.Arrangement, o Options) *sheet {
	s := &sheet{opt: o, title: theory.Clean(a.Song.Header.Title), key: a.KeysTold().Screen() + ", " + a.Tuning.Title}
	if s.title == "" {
		s.title = "Song"
	}
	h := a.Song.Header
	if h.Capo > 0 && !a.Capoed {
		s.key += say.Of(", capo at fret {}", say.Number(h.Capo)).Screen()
	}
	if h.Tempo > 0 {
		s.hand = append(s.hand, say.Of("{} beats a minute", say.Number(int(h.Tempo+0.5))).Screen())
	}
	for _, p := range []struct {
		name    string
		pattern song.Pattern
	}{{"Strum", h.Strum}, {"Picking by strings", h.Pick}} {
		if !p.pattern.IsZero() {
			s.hand = append(s.hand, p.name+": "+p.pattern.String())
		}
	}
	if h.Strum.IsZero() && h.Pick.IsZero() {
		s.hand = append(s.hand, "Picking by strings: "+a.Picking().String())
	}
	s.addCards(a)
	for _, c := range a.Unheld() {
		s.words = append(s.words, say.Of("{} has no shape on {} that a hand can hold.", say.Chord(c), say.Words(a.Tuning.Name)))
	}
	for _, section := range a.Song.Sections {
		p := part{name: theory.Clean(section.Name)}
		for _, line := range section.Lines {
			if line.Key != nil {
				p.lines = append(p.lines, []segment{{above: say.Of("In {}:", say.Key(*line.Key)).Screen()}})
			}
			p.lines = append(p.lines, segments(line))
		}
		s.parts = append(s.parts, p)
	}
	return s
}

// addCards adds a card for each chord with each pair of shapes that it has in the song.
func (s *sheet) addCards(a arrange.Arrangement) {
	var seen []string
	for _, p := range a.Places {
		if p.Rests() {
			continue
		}
		plain, colour := p.Plain, p.Path.Colour
		if colour == nil && !slices.Equal(p.Path.Shape, p.Plain.Shape) {
			plain = p.Path
		}
		if colour == nil && len(p.Colours) > 0 && p.Colours[0].Good() {
			colour = &p.Colours[0]
		}
		if colour != nil {
			fingers, _, _, _ := fret.Finger(colour.From)
			plain = arrange.Held{Shape: colour.From, Fingers: fingers, Chord: p.Chord}
		}
		id := p.Chord.FullSymbol() + " " + plain.Shape.String()
		if colour != nil {
			id += " " + colour.Shape.String()
		}
		if slices.Contains(seen, id) {
			continue
		}
		seen = append(seen, id)
		s.addCard(a.Tuning, p.Chord, plain, colour)
	}
}

// addCard adds a card.
func (s *sheet) addCard(t *fret.Tuning, c theory.Chord, plain arrange.Held, colour *arrange.Colour) {
	before, err := fret.Voice(t, plain.Shape, c)
	if err != nil {
		return
	}
	var one card
	voicings, names, fingers := []fret.Voicing{before}, []string{c.String()}, [][]int{plain.Fingers}
	s.words = append(s.words, described(before, plain.Fingers))
	if colour != nil {
		after, err := fret.Voice(t, colour.Shape, colour.Chord)
		if err == nil {
			voicings, names, fingers = append(voicings, after), append(names, colour.Chord.String()), append(fingers, colour.Fingers)
			one.trade = becomes(before, after, colour)
			s.words = append(s.words, described(after, colour.Fingers), one.trade)
		}
	}
	first, frets := window(voicings...)
	for i, v := range voicings {
		one.necks = append(one.necks, neck{names[i], v, fingers[i], s.opt.Left, first, frets, false})
	}
	s.cards = append(s.cards, one)
}

// becomes says which note becomes which, and what they are: "A on the g string becomes G: 3 → 9".
func becomes(before, after fret.Voicing, c *arrange.Colour) say.Text {
	i := len(before.Strings) - c.String
	out := say.Of("{} on the {} string becomes {}: {} → {}", say.Note(before.Strings[i].Pitch.Note), say.String{On: before.Tuning, Number: c.String},
		say.Note(after.Strings[i].Pitch.Note), say.Degree(c.GivesUp), say.Degree(c.Adds))
	if marks := c.Marks(); !marks.IsZero() {
		return say.Of("{}; {}", out, marks)
	}
	return out
}

// described says a shape in words, string by string.
func described(v fret.Voicing, fingers []int) say.Text {
	var strings []say.Text
	for i, s := range v.Strings {
		name := say.String{On: v.Tuning, Number: s.Number}
		switch {
		case s.Fret == fret.Muted:
			strings = append(strings, say.Of("{} muted", name))
			continue
		case s.Fret == 0:
			strings = append(strings, say.Of("{} open, {}, {}{}", name, say.Note(s.Pitch.Note), say.Part(s.Interval), doubled(s)))
			continue
		}
		strings = append(strings, say.Of("{} fret {}, finger {}, {}, {}{}", name, say.Number(s.Fret), say.Number(fingers[i]), say.Note(s.Pitch.Note), say.Part(s.Interval), doubled(s)))
	}
	return say.Of("{}: {}", say.Chord(v.Chord), say.Clauses(strings...))
}

// doubled says that a string is doubled.
func doubled(s fret.StringTone) say.Fact {
	if s.Doubled {
		return say.Words(", doubled")
	}
	return say.Words("")
}
