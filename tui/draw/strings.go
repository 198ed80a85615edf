package draw

import "strings"

// Strings is the picture of an ear question: as many lines as the instrument has strings, still until
// they sound, trembling while they do. A line stands for the order of plucking and not for a string of
// the shape, so neither pitch nor shape can be read from it.
type Strings struct {
	Count  int
	Levels []float64 // how strongly each sounds, 0 to 1, in the order plucked
	Phase  int       // of the trembling; any two that follow one another differ
	Small  bool
	Still  bool // movement is switched off
}

// Rows is how tall the picture is.
func (s Strings) Rows() int {
	if s.Small {
		return 5
	}
	return 9
}

// swing is how a string looks by how strongly it sounds, strongest first: the share of its length,
// counted from either end, that still looks at rest, and what the rest of it changes between.
var swing = []struct {
	least    float64
	rest     float64
	one, two string
}{
	{0.2, 0.12, "(", ")"},
	{0.04, 0.28, "(", ")"},
	{0.004, 0.40, "╎", "│"},
}

// Render draws the strings; every line has the same width.
func (s Strings) Render(th Theme) string {
	gap := 6
	if s.Small {
		gap = 4
	}
	var b strings.Builder
	b.WriteString(th.Quiet.Render("═" + strings.Repeat("╪"+strings.Repeat("═", gap-1), s.Count-1) + "╪═"))
	for row := range s.Rows() - 1 {
		b.WriteString("\n ")
		for i := range s.Count {
			glyph := s.glyph(i, row)
			style := th.Quiet
			if glyph != "│" {
				style = th.Text
			}
			b.WriteString(style.Render(glyph))
			if i+1 < s.Count {
				b.WriteString(strings.Repeat(" ", gap-1))
			}
		}
		b.WriteString(" ")
	}
	return b.String()
}

func (s Strings) glyph(i, row int) string {
	if s.Still || i >= len(s.Levels) {
		return "│"
	}
	along := (float64(row) + 0.5) / float64(s.Rows()-1)
	fromEnd := min(along, 1-along)
	for _, w := range swing {
		if s.Levels[i] < w.least {
			continue
		}
		switch {
		case fromEnd < w.rest:
			return "│"
		case (s.Phase+i)%2 == 0:
			return w.one
		}
		return w.two
	}
	return "│"
}
