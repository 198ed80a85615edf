package draw

import (
	"slices"

	"sparetone/theory/fret"
)

// brackets joins the strings that sound the same note, a line for each note that is doubled.
func (d *drawing) brackets() {
	for _, class := range d.doubled() {
		first, last := -1, -1
		for i, s := range d.order {
			if sounds(s, class) {
				if first < 0 {
					first = i
				}
				last = i
			}
		}
		d.bracket(class, first, last)
		d.row++
	}
}

// bracket joins the strings from the first to the last that sound a note; the word stands in it, a dash on
// either side at the least, and where that has no room beside it. Where there is room on neither side the
// drawing grows.
func (d *drawing) bracket(class, first, last int) {
	between := false
	for col := d.column(first); col <= d.column(last); col++ {
		d.put(col, d.row, "─", quietInk)
	}
	for i := first + 1; i < last; i++ {
		if sounds(d.order[i], class) {
			d.put(d.column(i), d.row, "┴", quietInk)
			between = true
		}
	}
	from, to := d.column(first), d.column(last)
	d.put(from, d.row, "└", quietInk)
	d.put(to, d.row, "┘", quietInk)
	const word = "doubled"
	switch room := to - from + 1 - len(" "+word+" ") - 4; {
	case !between && room >= 0:
		d.put(from+2+room/2, d.row, " "+word+" ", quietInk)
	case to+1+len(" "+word) <= d.width() || from < len(word)+1:
		d.put(to+2, d.row, word, quietInk)
	default:
		d.put(from-1-len(word), d.row, word, quietInk)
	}
}

func sounds(s fret.StringTone, class int) bool {
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
