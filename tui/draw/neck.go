package draw

import (
	"slices"
	"strconv"

	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Neck draws a shape as the trade draws it: nut on top, strings in the tuning's order, dots in the space behind the fret, x and
// open marks above the nut, the number of the first row beside it when that is not fret 1. A finger that lies across strings
// is a bar.
type Neck struct {
	Voicing fret.Voicing
	Caption say.Text   // stands above it; zero for none
	Chosen  bool       // of several side by side: a sign stands before its caption
	Sounds  bool       // it sounds now: a note stands before its caption
	Named   bool       // write notes under the strings, and of a chord what they are in it and which are doubled
	Fingers bool       // write the finger that stops a string in its dot, 1 the index to 4 the little finger
	InTurn  []int      // strings of two notes as they are heard, which is written under them; nil for anything else
	Lit     []int      // numbers of the strings that are marked: in the accent colour, and with a sign of their own
	Swap    *fret.Swap // its string is marked too, and an open dot stands where it would go; nil for none
	Size    Size
	Left    bool // for left-handed players: strings from right to left

	Caret  int          // number of the string that a finger is being set on; 0 for none
	Under  []string     // written under the strings, in the tuning's order, while an answer is made
	Least  int          // frets shown at the least; 0 for the usual number
	Beside []fret.Shape // whose frets are shown as well, so that the same fret lies at the same height in each
}

// rowsShown is how many frets a diagram shows at the least.
const rowsShown = 4

// Render draws the neck with a theme's colours. Every line has the same width.
func (n Neck) Render(th Theme) string {
	d := n.drawing()
	d.draw()
	return d.canvas.render(th, d.width())
}

// drawing is a neck being drawn.
type drawing struct {
	Neck
	grid
	canvas
	order       []fret.StringTone // as they stand from left to right
	fingers     []int             // of each of them; nil if no hand holds the shape, or it is not known as what
	first, rows int               // frets shown
	row         int               // of the canvas that is drawn next
}

func (n Neck) drawing() *drawing {
	d := &drawing{Neck: n, grid: grids[n.Size], order: slices.Clone(n.Voicing.Strings)}
	d.fingers = n.Voicing.Fingers()
	if n.Left {
		slices.Reverse(d.order)
		d.fingers = slices.Clone(d.fingers)
		slices.Reverse(d.fingers)
	}
	d.first, d.rows = n.window()
	return d
}

// window returns the first fret shown and how many are.
func (n Neck) window() (first, rows int) {
	shown := slices.Clone(n.Voicing.Shape)
	if n.Swap != nil {
		shown = append(shown, n.Swap.ToFret)
	}
	least := max(n.Least, rowsShown)
	first, rows = window(shown, least)
	if n.Beside == nil {
		return first, rows
	}
	if from, all := window(slices.Concat(append([]fret.Shape{shown}, n.Beside...)...), least); all <= mostBeside {
		return from, all
	}
	return first, rows
}

// mostBeside is how many frets necks that belong together show at the most; further apart, each shows its own.
const mostBeside = 6

// window returns the first fret shown and how many are, which is some number at the least.
func window(s fret.Shape, least int) (first, rows int) {
	low, high := 0, 0
	for _, f := range s {
		if f > 0 && (low == 0 || f < low) {
			low = f
		}
		high = max(high, f)
	}
	if slices.Contains(s, 0) && high == least+1 {
		return 1, high // with open strings the nut is worth a row more
	}
	if high <= least {
		return 1, least
	}
	return low, max(least, high-low+1)
}

// margin is what stands left of the first string, room for a note name and for the fret number.
const margin = 4

func (d *drawing) width() int { return d.column(len(d.order)-1) + 1 + d.overhang() + margin }

// column is where a string stands, by its place from left to right.
func (d *drawing) column(i int) int { return margin + i*d.gap }

func (d *drawing) draw() {
	if !d.Caption.IsZero() {
		job := strongInk
		switch {
		case d.Sounds:
			job = accentInk
			d.put(margin-2, d.row, "♪", job)
		case d.Chosen:
			d.put(margin-2, d.row, "›", job)
		}
		d.put(margin, d.row, d.Caption.Screen(), job)
		d.row++
	}
	d.each(func(s fret.StringTone) (string, ink) { return d.Voicing.Tuning.StringName(s.Number), quietInk })
	d.each(d.mark)
	switch {
	case d.first == 1:
		d.wire('═', '╪')
	case d.wired:
		d.wire('─', '┼')
	}
	for f := d.first; f < d.first+d.rows; f++ {
		d.fret(f)
	}
	if d.Caret != 0 {
		d.each(func(s fret.StringTone) (string, ink) {
			if s.Number == d.Caret {
				return "▲", strongInk
			}
			return "", blank
		})
	}
	if d.Under != nil {
		d.each(func(s fret.StringTone) (string, ink) { return d.Under[len(d.Under)-s.Number], textInk })
	}
	if !d.Named && d.InTurn == nil {
		return
	}
	d.put(0, d.row, "", blank)
	d.row++
	if d.Named {
		d.each(d.sounding(noteName))
		if d.Voicing.Chord.Kind != nil { // two notes have no root
			d.each(d.sounding(degreeName))
		}
		d.brackets()
	}
	if d.InTurn != nil {
		d.each(d.turn)
	}
}

// turn says of a string whether it is heard first or second. One string may be heard as both.
func (d *drawing) turn(s fret.StringTone) (string, ink) {
	switch first, second := s.Number == d.InTurn[0], s.Number == d.InTurn[1]; {
	case first && second:
		return heardTwice, d.ink(s, textInk)
	case first:
		return heardFirst, d.ink(s, textInk)
	case second:
		return heardSecond, d.ink(s, textInk)
	}
	return "", blank
}

// What is written under strings that are heard one after the other.
const (
	heardFirst  = "1st"
	heardSecond = "2nd"
	heardTwice  = "both"
)

// each writes something on each string. Signs before a number stand left of the string, all else begins on it.
func (d *drawing) each(of func(s fret.StringTone) (string, ink)) {
	d.put(0, d.row, "", blank)
	for i, s := range d.order {
		if text, job := of(s); text != "" {
			d.put(d.column(i)-signsBefore(text), d.row, text, job)
		}
	}
	d.row++
}

// signsBefore counts the accidentals that stand before a number.
func signsBefore(text string) (n int) {
	for _, r := range text {
		if r != '♭' && r != '♯' {
			return n
		}
		n++
	}
	return 0
}

// isLit reports whether a string is marked.
func (d *drawing) isLit(s fret.StringTone) bool {
	return slices.Contains(d.Lit, s.Number) || d.Swap != nil && d.Swap.String == s.Number
}

// ink returns the accent for a marked string and another job otherwise.
func (d *drawing) ink(s fret.StringTone, other ink) ink {
	if d.isLit(s) {
		return accentInk
	}
	return other
}

// goes reports whether the swap that is looked at would move a string to a fret.
func (d *drawing) goes(s fret.StringTone, to int) bool {
	return d.Swap != nil && d.Swap.String == s.Number && d.Swap.ToFret == to
}

// mark is what stands above the nut.
func (d *drawing) mark(s fret.StringTone) (string, ink) {
	switch {
	case s.Fret == 0 && d.isLit(s) && d.Swap == nil:
		return "◇", accentInk
	case s.Fret == 0 || d.goes(s, 0):
		return "○", d.ink(s, textInk)
	case s.Fret == fret.Muted:
		return "x", textInk
	}
	return "", blank
}

// wire draws a line across the strings.
func (d *drawing) wire(line, cross rune) {
	from, to := margin-1, d.column(len(d.order)-1)+1
	text := make([]rune, 0, to-from+1)
	for col := from; col <= to; col++ {
		if (col-margin)%d.gap == 0 {
			text = append(text, cross)
		} else {
			text = append(text, line)
		}
	}
	d.put(from, d.row, string(text), quietInk)
	d.row++
}

// fret draws the space of a fret, what is stopped there, and the wire at its end.
func (d *drawing) fret(f int) {
	middle := d.row + d.space/2
	for n := range d.space {
		if !d.wired {
			d.wire('▁', '▁')
			d.row--
		}
		for i := range d.order {
			d.put(d.column(i), d.row+n, "│", quietInk)
		}
	}
	dotted := false
	for i, s := range d.order {
		switch {
		case s.Fret == f:
			dotted = true
			d.dot(d.stop, i, strongInk)
		case d.goes(s, f):
			dotted = true
			d.dot(d.target, i, accentInk)
		}
	}
	d.bars(f)
	for i, s := range d.order {
		if s.Fret != f {
			continue
		}
		switch {
		case d.Fingers && d.fingers != nil:
			d.put(d.column(i), middle, strconv.Itoa(d.fingers[i]), d.ink(s, strongInk))
		case d.isLit(s):
			d.put(d.column(i), middle, "◆", accentInk)
		}
	}
	if dotted || f == d.first && f > 1 {
		d.put(d.column(len(d.order)-1)+3+d.overhang(), middle, strconv.Itoa(f), quietInk)
	}
	d.row += d.space
	if d.wired {
		d.wire('─', '┼')
	}
}

// dot draws a dot on a string.
func (d *drawing) dot(of dot, i int, job ink) {
	for n, line := range of {
		d.put(d.column(i)-width(line)/2, d.row+n, line, d.ink(d.order[i], job))
	}
}

// bars draws a bar where one finger stops several strings of a fret.
func (d *drawing) bars(f int) {
	at := map[int][2]int{} // the first and the last string of each finger
	for i, s := range d.order {
		if d.fingers == nil || s.Fret != f {
			continue
		}
		if ends, known := at[d.fingers[i]]; known {
			at[d.fingers[i]] = [2]int{ends[0], i}
		} else {
			at[d.fingers[i]] = [2]int{i, i}
		}
	}
	for _, ends := range at {
		from, to := ends[0], ends[1]
		if from == to {
			continue
		}
		for n, sign := range d.bar {
			inner := d.overhang() - 1 // dots wider than a sign run into the bar
			for col := d.column(from) - inner; col <= d.column(to)+inner; col++ {
				if inner >= 0 || d.canvas[d.row+n][col].sign != d.stop[n] {
					d.put(col, d.row+n, sign, strongInk)
				}
			}
		}
	}
}

func noteName(s fret.StringTone) string { return s.Pitch.Note.String() }

func degreeName(s fret.StringTone) string { return s.Interval.Degree() }

// sounding says something of each string that sounds.
func (d *drawing) sounding(of func(fret.StringTone) string) func(fret.StringTone) (string, ink) {
	return func(s fret.StringTone) (string, ink) {
		if s.Fret == fret.Muted {
			return "", blank
		}
		return of(s), d.ink(s, textInk)
	}
}
