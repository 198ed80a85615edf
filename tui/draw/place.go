package draw

// Place is where a fret of a string lies on the drawing.
type Place struct {
	Row, From, To int
	String        int // its number
	Fret          int // 0 is above the nut
}

// Places lists where each fret of each string lies, so that it can be pointed at. The wire belongs to the fret that it ends.
func (n Neck) Places() []Place {
	d := n.drawing()
	var out []Place
	add := func(row, fret int) {
		for i, s := range d.order {
			x := d.column(i)
			out = append(out, Place{row, x - d.gap/2, x - d.gap/2 + d.gap, s.Number, fret})
		}
	}
	row := 1
	if !d.Caption.IsZero() {
		row++
	}
	add(row, 0)
	row++
	if d.first == 1 || d.wired {
		row++
	}
	for f := d.first; f < d.first+d.rows; f++ {
		for range d.height() {
			add(row, f)
			row++
		}
	}
	return out
}
