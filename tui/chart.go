package tui

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"sparetone/progress/memory"
	"sparetone/tui/draw"
	"sparetone/tui/page"
)

// cellMsg is a cell of the chart that was pointed at.
type cellMsg struct{ row, col int }

// overChart looks at another cell.
func overChart(c page.Chart, key string) bool {
	last := len(c.Items) - 1
	switch key {
	case "up":
		*c.Row = max(0, *c.Row-1)
	case "down":
		*c.Row = min(last, *c.Row+1)
	case "left":
		*c.Col = max(0, *c.Col-1)
	case "right":
		*c.Col = min(last, *c.Col+1)
	default:
		return false
	}
	return true
}

// chart draws what is mistaken for what, and says what the cell that is looked at means.
func (b *body) chart(m page.Chart) {
	th := b.theme
	const cell = 3
	n := len(m.Items)
	right := 12 // columns that say how many were right
	if b.col-right-n*cell < 16 {
		right = 0
	}
	widest := 0
	for _, i := range m.Items {
		widest = max(widest, ansi.StringWidth(i.Name.Screen()))
	}
	names := min(widest+4, max(12, b.col-right-n*cell))
	head := strings.Repeat(" ", names)
	for c := range m.Items {
		head += fmt.Sprintf("%*d", cell, c+1)
	}
	b.add(th.Quiet.Render(pad("asked", names) + "taken for"))
	if right > 0 {
		head += "   right"
	}
	b.add(th.Quiet.Render(head))
	for r, item := range m.Items {
		style := th.Text
		if r == *m.Row {
			style = th.Strong
			b.keep(b.next())
		}
		line := th.Quiet.Render(fmt.Sprintf("%2d ", r+1)) + style.Render(pad(ansi.Truncate(item.Name.Screen(), names-4, "…"), names-3))
		for c := range m.Items {
			text, ink := "·", th.Quiet
			if times := m.Times(r, c); times > 0 {
				text, ink = fmt.Sprint(min(times, 99)), th.Text
			}
			space := cell - ansi.StringWidth(text)
			if r == *m.Row && c == *m.Col {
				space, text, ink = space-1, "["+text+"]", th.Accent
			} else if r == *m.Row && c == *m.Col+1 {
				space-- // the bracket before stands there
			}
			line += strings.Repeat(" ", max(0, space)) + ink.Render(text)
			b.click(b.next(), names+c*cell, names+(c+1)*cell, cellMsg{r, c})
		}
		if r != *m.Row || *m.Col != n-1 {
			line += " "
		}
		if s := item.Standing; s.Latest.Asked > 0 && right > 0 {
			line += th.Quiet.Render(fmt.Sprintf("  %d of %d", s.Latest.Right, s.Latest.Asked))
		}
		b.add(line)
	}
	b.gap()
	for _, l := range m.Told(*m.Row, *m.Col) {
		b.say(th.Text, l.Screen())
	}
	if weeks := m.Items[*m.Row].Standing.Weeks; len(weeks) > 1 {
		b.gap()
		b.lines = append(b.lines, weeksChart(th, weeks, b.col)...)
	}
}

// bars are the heights of a bar, from none right to all right.
var bars = []rune("▁▂▃▄▅▆▇█")

// weeksTold is how many weeks are spoken of.
const weeksTold = 8

// weeksChart draws the last weeks' shares of right answers, a bar a week with its counts below, as many weeks as
// there is room for; the latest is the last.
func weeksChart(th draw.Theme, weeks []memory.Week, room int) []string {
	const title, latest = "right, week by week", "latest"
	counts, cell := make([]string, len(weeks)), 0
	for i, w := range weeks {
		counts[i] = fmt.Sprintf("%d/%d", w.Right, w.Asked)
		cell = max(cell, len(counts[i])+2)
	}
	fit := (room - len(title) - len(latest) - 2) / cell
	first := max(0, len(weeks)-min(weeksTold, fit))
	above, below := "", ""
	for i, w := range weeks[first:] {
		above += fmt.Sprintf("%*c", cell, bars[w.Right*(len(bars)-1)/max(1, w.Asked)])
		below += fmt.Sprintf("%*s", cell, counts[first+i])
	}
	return []string{
		th.Quiet.Render(title) + th.Text.Render(above) + th.Quiet.Render("  "+latest),
		th.Quiet.Render(strings.Repeat(" ", len(title)) + below),
	}
}
