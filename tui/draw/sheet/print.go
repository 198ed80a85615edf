package sheet

import (
	"io"
	"strings"

	"sparetone/theory/fret"
)

// Neck is a shape to be drawn.
type Neck struct {
	Title   string // above it; "" for none
	Voicing fret.Voicing
	Fingers bool // the fingers stand in the dots
	Named   bool // notes, degrees and what is doubled stand under it; else how the strings are called
	Left    bool // for players who hold the neck in the right hand
}

// picture draws the neck from its own first fret on.
func (n Neck) picture() picture { return n.shown(window(n.Voicing)) }

// shown draws so many frets of the neck from one on.
func (n Neck) shown(first, frets int) picture {
	of := neck{title: n.Title, voicing: n.Voicing, left: n.Left, first: first, frets: frets, bare: !n.Named}
	if n.Fingers {
		of.fingers = n.Voicing.Fingers()
	}
	return of.draw()
}

// SVG draws the neck for a page, so many times as large as on paper. Said is what it shows, for whoever cannot see it.
func (n Neck) SVG(said string, scale float64) string {
	var b strings.Builder
	p := n.picture()
	openSVG(&b, p, scale, said)
	writeMarks(&b, p)
	b.WriteString("</svg>")
	return b.String()
}

// mostAlike is how many frets necks that stand side by side show at the most so that all show the same ones.
const mostAlike = 6

// Print is text and necks on pages, one below the other.
type Print struct {
	title string
	said  []string
	*layout
}

// NewPrint begins with a title.
func NewPrint(title string, o Options) *Print {
	p := &Print{title: title, layout: newLayout(o)}
	p.print(headSize, title).bold = true
	return p
}

// InColumns sets all that follows in two columns, in large print in one.
func (p *Print) InColumns() {
	if !p.opt.Large {
		p.inColumns(2)
	}
}

// Together sets things that stay in one column, if one has room for them.
func (p *Print) Together(set func()) {
	before, column, top := len(p.pages), p.column, p.top
	marks, y := len(p.page().marks), p.y
	set()
	if len(p.pages) == before && p.column == column || y <= top {
		return
	}
	p.pages, p.y, p.column, p.top = p.pages[:before], y, column, top
	p.page().marks = p.page().marks[:marks]
	p.turn()
	set()
}

// Text sets a text in as many lines as it takes.
func (p *Print) Text(text string) { p.set(text, 0, false) }

// Bold sets a text in bold.
func (p *Print) Bold(text string) { p.set(text, 0, true) }

// Gap leaves white.
func (p *Print) Gap() { p.y += bodySize * p.scale }

// boxSide is how large a box to be ticked is, in points.
const boxSide = 8.0

// Boxes sets texts with a box before each.
func (p *Print) Boxes(texts []string) {
	side := boxSide * p.scale
	for _, text := range texts {
		p.room(bodySize * p.scale * 1.4)
		left, foot := p.left(), p.y+bodySize*p.scale*1.4+side*0.1
		page := p.page()
		for _, l := range [][4]float64{{0, 0, side, 0}, {side, 0, side, -side}, {side, -side, 0, -side}, {0, -side, 0, 0}} {
			page.line(left+l[0], foot+l[1], left+l[2], foot+l[3], 0.8)
		}
		p.set(text, 2*side, false)
	}
}

// Rule sets a line to write on.
func (p *Print) Rule() {
	height := 2.4 * bodySize * p.scale
	p.room(height)
	p.y += height
	p.page().line(p.left(), p.y, p.left()+p.wide(), p.y, 0.8)
}

// set sets a text, so far from the left.
func (p *Print) set(text string, indent float64, bold bool) {
	size := bodySize * p.scale
	for _, line := range broken([]segment{{below: text}}, int((p.wide()-indent)/(size*monoWidth))) {
		p.room(size * 1.4)
		p.y += size * 1.4
		p.page().text(p.left()+indent, p.y, size, line[1], start).bold = bold
	}
}

// Necks sets necks side by side, and what they show is noted for whoever cannot see them.
func (p *Print) Necks(necks []Neck, said []string) {
	p.said = append(p.said, said...)
	p.y += 4 * p.scale
	all := make([]picture, len(necks))
	voicings := make([]fret.Voicing, len(necks))
	for i, n := range necks {
		voicings[i] = n.Voicing
	}
	first, frets := window(voicings...)
	for i, n := range necks {
		if all[i] = n.picture(); frets <= mostAlike {
			all[i] = n.shown(first, frets) // what is compared is seen at one place of the neck
		}
	}
	p.row(all)
}

// PDF writes the pages as PDF, with the fonts in it. The error says which characters the fonts do not have, or is that of writing.
func (p *Print) PDF(w io.Writer) error {
	if err := printable(p.pages); err != nil {
		return err
	}
	return writePDF(w, p.pages, p.opt.paper(), p.title, strings.Join(p.said, " "))
}
