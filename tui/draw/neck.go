package draw

import (
	"slices"
	"strconv"
	"strings"

	"charm.land/lipgloss/v2"

	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Neck draws a shape as the trade draws it: nut on top, strings in the tuning's order, dots, x and
// open marks above the nut, the number of the first row beside it when that is not fret 1.
type Neck struct {
	Voicing fret.Voicing
	Named   bool       // write notes, intervals and the doubled notes under the strings
	Mark    int        // number of the string drawn in the accent colour; 0 for none
	Swap    *fret.Swap // its string is marked too, and an open dot stands where it would go; nil for none
	Small   bool       // a row a fret without the wires, strings closer together
	Left    bool       // for left-handed players: strings from right to left

	Caret int      // number of the string that a finger is being set on; 0 for none
	Under []string // written under the strings, in the tuning's order, while an answer is made
	Least int      // frets shown at the least; 0 for the usual number
}

// rowsShown is how many frets a diagram shows at the least.
const rowsShown = 4

// Render draws the neck with a theme's colours. Every line has the same width.
func (n Neck) Render(th Theme) string {
	d := n.drawing(th)
	lines := []string{d.names(), d.marks()}
	if d.first == 1 {
		lines = append(lines, d.wire("═", "╪"))
	} else if !n.Small {
		lines = append(lines, d.wire("─", "┼"))
	}
	for f := d.first; f < d.first+d.rows; f++ {
		if n.Small {
			lines = append(lines, d.frets(f, "─", "┼"))
			continue
		}
		lines = append(lines, d.frets(f, " ", "│"), d.wire("─", "┼"))
	}
	if n.Caret != 0 {
		lines = append(lines, d.row(" ", func(s fret.StringTone) (string, lipgloss.Style) {
			if s.Number == n.Caret {
				return "▲", th.Strong
			}
			return " ", th.Text
		}))
	}
	if n.Under != nil {
		lines = append(lines, d.row(" ", func(s fret.StringTone) (string, lipgloss.Style) {
			return n.Under[len(n.Under)-s.Number], th.Text
		}))
	}
	width := d.width()
	if n.Named {
		lines = append(lines, "", d.under(noteName), d.under(degreeName))
		for _, l := range d.brackets() {
			lines = append(lines, l)
			width = max(width, lipgloss.Width(l))
		}
	}
	return lipgloss.NewStyle().Width(width).Render(strings.Join(lines, "\n"))
}

func (n Neck) drawing(th Theme) drawing {
	d := drawing{Neck: n, th: th, gap: 6}
	if n.Small {
		d.gap = 4
	}
	d.order = make([]fret.StringTone, len(n.Voicing.Strings))
	copy(d.order, n.Voicing.Strings)
	if n.Left {
		slices.Reverse(d.order)
	}
	shown := n.Voicing.Shape
	if n.Swap != nil {
		d.Mark, shown = n.Swap.String, append(slices.Clone(shown), n.Swap.ToFret)
	}
	d.first, d.rows = window(shown, max(n.Least, rowsShown))
	return d
}

// place is where a fret of a string lies on the drawing.
type Place struct {
	Row, From, To int
	String        int // its number
	Fret          int // 0 is above the nut
}

// places lists where each fret of each string lies, so that it can be pointed at.
func (n Neck) Places() []Place {
	d := n.drawing(Theme{})
	var out []Place
	add := func(row, fret int) {
		for i, s := range d.order {
			x := margin + i*d.gap
			out = append(out, Place{row, x - d.gap/2, x - d.gap/2 + d.gap, s.Number, fret})
		}
	}
	add(1, 0)
	row := 2
	if d.first == 1 || !n.Small {
		row++
	}
	for f := d.first; f < d.first+d.rows; f++ {
		add(row, f)
		row++
		if !n.Small {
			add(row, f)
			row++
		}
	}
	return out
}

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

// drawing is a neck being drawn.
type drawing struct {
	Neck
	th          Theme
	order       []fret.StringTone
	first, rows int
	gap         int // columns from string to string
}

// margin is what stands left of the first string, room for a note name and for the fret number.
const margin = 4

func (d *drawing) width() int { return margin + d.gap*(len(d.order)-1) + 1 + margin }

// row writes a cell on each string, with fill between the cells. Signs before a number stand left of the
// string, all else begins on it.
func (d *drawing) row(fill string, cell func(s fret.StringTone) (string, lipgloss.Style)) string {
	var b strings.Builder
	at := 0
	for i, s := range d.order {
		text, style := cell(s)
		start := margin + i*d.gap - strings.Count(strings.TrimRight(text, "♭♯"), "♭") - strings.Count(strings.TrimRight(text, "♭♯"), "♯")
		for ; at < start; at++ {
			if i == 0 {
				b.WriteString(" ")
			} else {
				b.WriteString(d.th.Quiet.Render(fill))
			}
		}
		b.WriteString(style.Render(text))
		at += lipgloss.Width(text)
	}
	return b.String()
}

// style returns the accent for the marked string and plain otherwise.
func (d *drawing) style(s fret.StringTone, plain lipgloss.Style) lipgloss.Style {
	if d.Mark != 0 && s.Number == d.Mark {
		return d.th.Accent
	}
	return plain
}

// goes reports whether the swap that is looked at would move a string to a fret.
func (d *drawing) goes(s fret.StringTone, to int) bool {
	return d.Swap != nil && d.Swap.String == s.Number && d.Swap.ToFret == to
}

// names writes the open strings, lower case for one that is tuned higher than its neighbour's place
// would have it, as players of re-entrant instruments write them.
func (d *drawing) names() string {
	return d.row(" ", func(s fret.StringTone) (string, lipgloss.Style) {
		return d.Voicing.Tuning.StringName(s.Number), d.th.Quiet
	})
}

func (d *drawing) marks() string {
	return d.row(" ", func(s fret.StringTone) (string, lipgloss.Style) {
		switch {
		case s.Fret == 0 || d.goes(s, 0):
			return "○", d.style(s, d.th.Text)
		case s.Fret == fret.Muted:
			return "x", d.th.Text
		}
		return " ", d.th.Text
	})
}

func (d *drawing) wire(fill, cross string) string {
	return strings.Repeat(" ", margin-1) + d.th.Quiet.Render(fill+
		strings.Repeat(cross+strings.Repeat(fill, d.gap-1), len(d.order)-1)+cross+fill)
}

func (d *drawing) frets(f int, fill, line string) string {
	dotted := false
	text := d.row(fill, func(s fret.StringTone) (string, lipgloss.Style) {
		if s.Fret == f {
			dotted = true
			return "●", d.style(s, d.th.Strong)
		}
		if d.goes(s, f) {
			dotted = true
			return "○", d.th.Accent
		}
		return line, d.th.Quiet
	})
	if dotted || f == d.first && f > 1 {
		text += d.th.Quiet.Render("  " + strconv.Itoa(f))
	}
	return text
}

func noteName(s fret.StringTone) string { return s.Pitch.Note.String() }

func degreeName(s fret.StringTone) string { return s.Interval.Degree() }

func (d *drawing) under(name func(fret.StringTone) string) string {
	return d.row(" ", func(s fret.StringTone) (string, lipgloss.Style) {
		if s.Fret == fret.Muted {
			return " ", d.th.Quiet
		}
		return name(s), d.style(s, d.th.Text)
	})
}

// brackets joins the strings that sound the same note, a line for each note that is doubled.
func (d *drawing) brackets() []string {
	var lines []string
	for _, class := range d.doubled() {
		first, last := -1, -1
		for i, s := range d.order {
			if d.sounds(s, class) {
				if first < 0 {
					first = i
				}
				last = i
			}
		}
		lines = append(lines, d.bracket(class, first, last))
	}
	return lines
}

// bracket joins the strings from the first to the last that sound a note; the word stands in it, a dash on
// either side at the least, and where that has no room beside it. Where there is room on neither side the
// drawing grows.
func (d *drawing) bracket(class, first, last int) string {
	arm := make([]string, (last-first)*d.gap+1)
	for i := range arm {
		arm[i] = "─"
	}
	between := 0
	for i := first + 1; i < last; i++ {
		if d.sounds(d.order[i], class) {
			arm[(i-first)*d.gap] = "┴"
			between++
		}
	}
	arm[0], arm[len(arm)-1] = "└", "┘"
	at := margin + first*d.gap
	const word = "doubled"
	text := strings.Join(arm, "")
	mid := " " + word + " "
	switch room := len(arm) - len(mid) - 4; {
	case between == 0 && room >= 0:
		left := 2 + room/2
		text = strings.Join(arm[:left], "") + mid + strings.Join(arm[left+len(mid):], "")
	case at+len(arm)+1+len(word) <= d.width() || at < len(word)+1:
		text += " " + word
	default:
		text = word + " " + text
		at -= len(word) + 1
	}
	return d.th.Quiet.Render(strings.Repeat(" ", at) + text)
}

func (d *drawing) sounds(s fret.StringTone, class int) bool {
	return s.Fret != fret.Muted && s.Pitch.Class() == class
}

// doubled lists the pitch classes that more than one string sounds, in the drawing's order.
func (d *drawing) doubled() []int {
	var out []int
	for _, s := range d.order {
		if s.Doubled && s.Fret != fret.Muted && !slices.Contains(out, s.Pitch.Class()) {
			out = append(out, s.Pitch.Class())
		}
	}
	return out
}

// Words says the shape for a screen reader, a sentence a string in the tuning's order:
// "g string, open, G, the fifth".
func (n Neck) Words() []say.Text {
	var lines []say.Text
	for _, s := range n.Voicing.Strings {
		called := say.String{On: n.Voicing.Tuning, Number: s.Number}
		where := say.Of("{} string, fret {}", called, say.Number(s.Fret))
		switch s.Fret {
		case 0:
			where = say.Of("{} string, open", called)
		case fret.Muted:
			lines = append(lines, say.Of("{} string, not played", called))
			continue
		}
		if n.Named {
			where = say.Of("{}, {}, {}", where, say.Note(s.Pitch.Note), say.Role(s.Interval))
			if s.Doubled {
				where = say.Of("{}, doubled", where)
			}
		}
		lines = append(lines, where)
	}
	return lines
}
