package sheet

// margin is the white around a page, in points.
const margin = 45.0

// Sizes of print, in points, before large print.
const (
	headSize = 20.0
	keySize  = 10.0
	bodySize = 10.0
	// monoWidth is how wide a character of equal width is, as a part of its size: that of DejaVu Sans Mono, 1233 of 2048 units.
	monoWidth = 0.602
	cardGap   = 14.0
)

// columnGap is the white between columns, in points.
const columnGap = 24.0

// layout sets things on pages, from top to bottom, in a column or several.
type layout struct {
	opt     Options
	pages   []picture
	y       float64 // where the next thing goes
	scale   float64
	columns int     // side by side; 0 is one
	column  int     // that is filled, from 0
	top     float64 // where the columns of the page begin
}

// newLayout begins on an empty page.
func newLayout(o Options) *layout {
	l := &layout{opt: o, scale: o.Scale()}
	l.turn()
	return l
}

// pages sets a sheet on as many pages as it takes.
func (s *sheet) pages() []picture {
	l := newLayout(s.opt)
	l.print(headSize, s.title).bold = true
	l.print(keySize, s.key)
	for _, h := range s.hand {
		l.print(keySize, h)
	}
	l.y += 14 * l.scale
	l.cards(s.cards)
	l.song(s.parts)
	return l.pages
}

func (l *layout) page() *picture { return &l.pages[len(l.pages)-1] }

// wide is how wide a column is.
func (l *layout) wide() float64 {
	columns := float64(max(1, l.columns))
	return (l.opt.paper().Width - 2*margin - (columns-1)*columnGap) / columns
}

// left is where the column begins.
func (l *layout) left() float64 { return margin + float64(l.column)*(l.wide()+columnGap) }

// inColumns sets all that follows in so many columns.
func (l *layout) inColumns(n int) { l.columns, l.column, l.top = n, 0, l.y }

// turn begins the next column, or a page.
func (l *layout) turn() {
	if l.column+1 < l.columns {
		l.column, l.y = l.column+1, l.top
		return
	}
	p := l.opt.paper()
	l.pages = append(l.pages, picture{width: p.Width, height: p.Height})
	l.y, l.top, l.column = margin, margin, 0
}

// room turns if so much does not fit.
func (l *layout) room(height float64) {
	if l.y+height > l.opt.paper().Height-margin && l.y > l.top {
		l.turn()
	}
}

// print prints a line.
func (l *layout) print(size float64, s string) *mark {
	size *= l.scale
	if most := l.opt.paper().Width - 2*margin; size*monoWidth*float64(columnsOf(s)) > most {
		size = most / (monoWidth * float64(columnsOf(s)))
	}
	l.room(size * 1.4)
	l.y += size * 1.4
	return l.page().text(margin, l.y, size, s, start)
}

// cards sets the chords in rows.
func (l *layout) cards(cards []card) {
	all := make([]picture, len(cards))
	for i, c := range cards {
		all[i] = c.draw()
	}
	l.row(all)
}

// row sets pictures side by side, in as many rows as they take.
func (l *layout) row(pictures []picture) {
	wide, all := l.wide(), 0.0
	for _, p := range pictures {
		all += p.width * l.scale
	}
	smaller := 1.0 // in narrow columns rather than one below the other
	if fits := (wide - cardGap*float64(len(pictures)-1)) / all; l.columns > 1 && fits >= leastScale {
		smaller = min(1, fits)
	}
	x, tallest := 0.0, 0.0
	for _, p := range pictures {
		scale := min(l.scale*smaller, wide/p.width)
		w, h := p.width*scale, p.height*scale
		if x > 0 && x+w > wide+1e-6 {
			l.y, x, tallest = l.y+tallest+cardGap, 0, 0
		}
		if x == 0 {
			l.room(h)
		}
		l.page().put(p, l.left()+x, l.y, scale)
		x, tallest = x+w+cardGap, max(tallest, h)
	}
	l.y += tallest + cardGap
}

// leastScale is how much smaller pictures are drawn at the least so that all stand side by side in a column.
const leastScale = 0.7

// captionSize is how large it is said what becomes what, in points.
const captionSize = 7.5

// draw draws a card: its necks side by side, what becomes what below.
func (c card) draw() (p picture) {
	for _, n := range c.necks {
		of := n.draw()
		p.put(of, p.width, 0, 1)
		p.width, p.height = p.width+of.width, max(p.height, of.height)
	}
	if c.trade.IsZero() {
		return p
	}
	columns := int(p.width / (captionSize * monoWidth))
	for _, line := range broken([]segment{{below: c.trade.Screen()}}, columns) {
		p.height += captionSize * 1.3
		p.text(p.width/2, p.height, captionSize, line[1], middle)
	}
	p.height += 4
	return p
}

// song sets the bars and the words.
func (l *layout) song(parts []part) {
	size := bodySize * l.scale
	columns := int((l.opt.paper().Width - 2*margin) / (size * monoWidth))
	for _, part := range parts {
		if part.name != "" {
			l.room(4 * size)
			l.y += size * 0.6
			l.print(bodySize+1, part.name).bold = true
		}
		for _, all := range part.lines {
			if len(all) == 0 {
				l.y += size * 0.8
			}
			for _, line := range broken(all, columns) {
				l.pair(line, size)
			}
		}
	}
}

// pair prints a line of chords, if there are any, and the words under it, on one page.
func (l *layout) pair(line [2]string, size float64) {
	l.room(2.6 * size)
	for n, s := range line {
		if s == "" {
			continue
		}
		l.y += size * 1.3
		m := l.page().text(margin, l.y, size, s, start)
		m.mono, m.bold = true, n == 0
	}
	l.y += size * 0.3
}
