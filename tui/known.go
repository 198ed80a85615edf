package tui

import (
	"fmt"
	"strings"

	"charm.land/lipgloss/v2"
	"github.com/charmbracelet/x/ansi"

	"sparetone/drills/practice"
	"sparetone/tui/draw"
	"sparetone/tui/page"
)

// Sizes of a curve, in characters.
const (
	curveWeek  = 4 // columns of a week
	curveRows  = 5
	curveSmall = 3 // rows where there is little room
)

// eighths are the heights of a character's part of a column, from nothing to all of it.
var eighths = []rune(" ▁▂▃▄▅▆▇█")

// curve draws how many things are told apart by ear: a column a week, its number below it.
func (b *body) curve(c page.Curve) {
	if len(c.Points) < 2 {
		return
	}
	rows := curveRows
	if b.small {
		rows = curveSmall
	}
	points := c.Points[max(0, len(c.Points)-b.col/curveWeek):]
	most := 1
	for _, p := range points {
		most = max(most, p.Whole())
	}
	for row := rows - 1; row >= 0; row-- {
		var line strings.Builder
		for _, p := range points {
			part := p.Whole()*rows*8/most - row*8
			line.WriteString("  " + strings.Repeat(string(eighths[max(0, min(8, part))]), 2))
		}
		b.add(b.theme.Text.Render(line.String()))
	}
	var numbers strings.Builder
	for _, p := range points {
		fmt.Fprintf(&numbers, "%*d", curveWeek, p.Whole())
	}
	b.add(b.theme.Quiet.Render(numbers.String()))
	from, to := fmt.Sprintf("  %d weeks ago", points[0].Ago), "now"
	if points[0].Ago == 1 {
		from = "  last week"
	}
	if room := len(points)*curveWeek - len(from) - len(to); room > 0 {
		b.add(b.theme.Quiet.Render(from + strings.Repeat(" ", room) + to))
	}
}

// kindCell is how wide a column of the map of kinds is.
const kindCell = 7

// kindMap draws how well each kind of chord is known: a row a kind, a word a drill.
func (b *body) kindMap(m page.KindMap) {
	widest := 0
	for _, r := range m.Rows {
		widest = max(widest, ansi.StringWidth(r.Name.Screen()))
	}
	names := min(widest+2, b.col-kindCell*len(m.Columns))
	head := strings.Repeat(" ", names)
	for _, c := range m.Columns {
		head += pad(string(c), kindCell)
	}
	b.add(b.theme.Quiet.Render(strings.TrimRight(head, " ")))
	for _, r := range m.Rows {
		line := b.theme.Text.Render(pad(ansi.Truncate(r.Name.Screen(), names-1, "…"), names))
		for n, g := range r.Grasps {
			word, ink := graspShown(b.theme, g)
			if n < len(r.Grasps)-1 {
				word = pad(word, kindCell)
			}
			line += ink.Render(word)
		}
		b.add(line)
	}
}

// graspShown is a grasp in a map, and how it is written: what is new and what cannot be asked stand back.
func graspShown(th draw.Theme, g practice.Grasp) (string, lipgloss.Style) {
	switch {
	case g == practice.None:
		return " ", th.Quiet
	case g == practice.Unmet:
		return newSign, th.Quiet
	case g >= practice.Known:
		return g.String(), th.Strong
	}
	return g.String(), th.Text
}
