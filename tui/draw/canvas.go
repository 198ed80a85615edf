package draw

import (
	"strings"

	"charm.land/lipgloss/v2"
	"github.com/charmbracelet/x/ansi"
)

// ink is the job of a character on a canvas.
type ink int

const (
	blank ink = iota
	textInk
	quietInk
	strongInk
	accentInk
)

// style returns the theme's style of a job.
func (th Theme) style(i ink) lipgloss.Style {
	return *[...]*lipgloss.Style{&th.Text, &th.Text, &th.Quiet, &th.Strong, &th.Accent}[i]
}

// switches are what a terminal is sent before and after a text.
type switches struct{ on, off string }

// switches returns those of each ink. To have them once is many times quicker than to render each run of signs.
func (th Theme) switches() (all [accentInk + 1]switches) {
	for i := textInk; i <= accentInk; i++ {
		const sign = "x"
		all[i].on, all[i].off, _ = strings.Cut(th.style(i).Render(sign), sign)
	}
	return all
}

// cell is one character of a canvas.
type cell struct {
	sign string
	ink  ink
}

// canvas is a picture of characters that grows to the right and down as signs are put on it. What is put later covers what was there.
type canvas [][]cell

// put writes a text from a column of a row on.
func (c *canvas) put(col, row int, text string, i ink) {
	for len(*c) <= row {
		*c = append(*c, nil)
	}
	line := (*c)[row]
	for _, r := range text {
		for len(line) <= col {
			line = append(line, cell{" ", blank})
		}
		line[col] = cell{string(r), i}
		col++
	}
	(*c)[row] = line
}

// render returns the canvas as lines, every one as wide as the widest and no narrower than least.
func (c canvas) render(th Theme, least int) string {
	width := least
	for _, line := range c {
		width = max(width, len(line))
	}
	of := th.switches()
	var b strings.Builder
	for n, line := range c {
		if n > 0 {
			b.WriteByte('\n')
		}
		last := blank
		for _, at := range line {
			if at.ink != last {
				b.WriteString(of[last].off + of[at.ink].on)
				last = at.ink
			}
			b.WriteString(at.sign)
		}
		b.WriteString(of[last].off)
		b.WriteString(strings.Repeat(" ", width-len(line)))
	}
	return b.String()
}

// width is how many columns a text takes.
func width(text string) int { return ansi.StringWidth(text) }
