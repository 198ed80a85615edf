package sheet

import (
	"strconv"

	"sparetone/theory/fret"
)

// kind is a kind of mark on paper.
type kind int

const (
	line kind = iota
	circle
	disc // a circle that is filled
	text
)

// anchor is where a text stands beside its place.
type anchor int

const (
	middle anchor = iota
	start
	end
)

// mark is one mark on paper. Lengths are points, y goes down.
type mark struct {
	kind   kind
	x, y   float64 // of a text, its base line
	x2, y2 float64 // end of a line
	r      float64 // of a circle
	width  float64 // of a line
	text   string
	size   float64
	anchor anchor
	bold   bool
	mono   bool // of equal width
	white  bool
}

// picture is marks on a piece of paper.
type picture struct {
	width, height float64
	marks         []mark
}

func (p *picture) line(x, y, x2, y2, width float64) {
	p.marks = append(p.marks, mark{kind: line, x: x, y: y, x2: x2, y2: y2, width: width})
}

func (p *picture) text(x, y, size float64, s string, at anchor) *mark {
	p.marks = append(p.marks, mark{kind: text, x: x, y: y, size: size, text: s, anchor: at})
	return &p.marks[len(p.marks)-1]
}

// put puts a picture on another at a place.
func (p *picture) put(of picture, x, y, scale float64) {
	for _, m := range of.marks {
		m.x, m.y, m.x2, m.y2 = x+m.x*scale, y+m.y*scale, x+m.x2*scale, y+m.y2*scale
		m.r, m.width, m.size = m.r*scale, m.width*scale, m.size*scale
		p.marks = append(p.marks, m)
	}
}

// The measures of a neck, in points.
const (
	stringGap  = 17.0
	fretGap    = 18.0
	sideMargin = 20.0
	leastFrets = 4
	dotRadius  = 6.6
	titleSize  = 12.0
	smallSize  = 8.0
	doubleGap  = 7.0
)

// window returns the first fret that necks show, and how many: all their stops, from the nut if they lie near it.
func window(necks ...fret.Voicing) (first, frets int) {
	low, high := 0, 0
	for _, v := range necks {
		for _, s := range v.Strings {
			if s.Fret > 0 && (low == 0 || s.Fret < low) {
				low = s.Fret
			}
			high = max(high, s.Fret)
		}
	}
	first = 1
	if high > leastFrets {
		first = low
	}
	return first, max(leastFrets, high-first+1)
}

// draw draws a neck: title, strings, frets, fingers, notes, degrees, and which strings are doubled.
func (n neck) draw() picture {
	v := n.voicing
	count := len(v.Strings)
	p := picture{width: 2*sideMargin + float64(count-1)*stringGap}
	first, frets := n.first, n.frets
	x := func(i int) float64 {
		if n.left {
			i = count - 1 - i
		}
		return sideMargin + float64(i)*stringGap
	}
	left, right := sideMargin, sideMargin+float64(count-1)*stringGap
	top := 20.0
	if n.title != "" {
		p.text(p.width/2, titleSize, titleSize, n.title, middle).bold = true
		top += titleSize
	}
	for i := range v.Strings {
		p.line(x(i), top, x(i), top+float64(frets)*fretGap, 0.8)
	}
	for f := range frets + 1 {
		width := 0.8
		if f == 0 && first == 1 {
			width = 3
		}
		p.line(left, top+float64(f)*fretGap, right, top+float64(f)*fretGap, width)
	}
	if first > 1 {
		p.text(left-9, top+fretGap/2+3, smallSize, strconv.Itoa(first), end)
	}
	y := func(at int) float64 { return top + (float64(at-first)+0.5)*fretGap }
	n.barres(&p, x, y)
	for i, s := range v.Strings {
		switch {
		case s.Fret == fret.Muted:
			p.text(x(i), top-5, smallSize+1, "×", middle)
		case s.Fret == 0:
			p.marks = append(p.marks, mark{kind: circle, x: x(i), y: top - 8, r: 3.2, width: 1})
		default:
			p.marks = append(p.marks, mark{kind: disc, x: x(i), y: y(s.Fret), r: dotRadius})
			if n.fingers == nil {
				continue
			}
			t := p.text(x(i), y(s.Fret)+3, smallSize+1, strconv.Itoa(n.fingers[i]), middle)
			t.white, t.bold = true, true
		}
	}
	base := top + float64(frets)*fretGap + 12
	if n.bare {
		for i, s := range v.Strings {
			p.text(x(i), base, smallSize+1, v.Tuning.StringName(s.Number), middle)
		}
		p.height = base + 4
		return p
	}
	for i, s := range v.Strings {
		if s.Fret != fret.Muted {
			p.text(x(i), base, smallSize+1, s.Pitch.Note.String(), middle).bold = true
			p.text(x(i), base+11, smallSize, s.Interval.Degree(), middle)
		}
	}
	base += 15
	for _, d := range v.Doubled() {
		from, to := x(count-d.Strings[0]), x(count-d.Strings[len(d.Strings)-1])
		for _, number := range d.Strings {
			p.line(x(count-number), base, x(count-number), base+4, 1)
		}
		p.line(from, base+4, to, base+4, 1)
		base += doubleGap
	}
	p.height = base + 2
	return p
}

// barres draws a line through the strings that one finger holds.
func (n neck) barres(p *picture, x func(int) float64, y func(int) float64) {
	for finger := 1; finger <= 4; finger++ {
		from, to := -1, -1
		for i, f := range n.fingers {
			if f == finger {
				if from < 0 {
					from = i
				}
				to = i
			}
		}
		if to > from {
			at := n.voicing.Strings[from].Fret
			p.line(x(from), y(at), x(to), y(at), 2*dotRadius-3)
		}
	}
}
