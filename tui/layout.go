package tui

import (
	"strings"

	"charm.land/lipgloss/v2"
	"github.com/charmbracelet/x/ansi"
)

// The smallest screen on which everything has room, and the widest column.
const (
	leastWidth  = 60
	leastHeight = 20
	columnWidth = 72
)

// column is how wide text may be on a screen of this width.
func column(width int) int { return max(1, min(columnWidth, width-4)) }

// page sets a screen's parts: the body in one centred column with white space around it, and the
// foot (what can be pressed) on the last line.
func page(width, height int, head, body, foot string) string {
	col := column(width)
	room := max(0, height-2)
	lines := strings.Split(body, "\n")
	if len(lines) > room {
		lines = lines[:room]
	}
	top := (room - len(lines)) / 3
	out := make([]string, 0, height)
	out = append(out, centre(width, col, head))
	for range top {
		out = append(out, "")
	}
	for _, l := range lines {
		out = append(out, centre(width, col, l))
	}
	for len(out) < height-1 {
		out = append(out, "")
	}
	out = append(out, centre(width, col, foot))
	return strings.Join(out[:min(len(out), height)], "\n")
}

// centre puts a line of a column of width col into the middle of the screen.
func centre(width, col int, line string) string {
	if line == "" {
		return ""
	}
	return strings.Repeat(" ", max(0, (width-col)/2)) + ansi.Truncate(line, col, "…")
}

// middle centres a block of lines within a column.
func middle(col int, block string) string {
	pad := strings.Repeat(" ", max(0, (col-lipgloss.Width(block))/2))
	return pad + strings.ReplaceAll(block, "\n", "\n"+pad)
}

// wrap breaks text at spaces so that no line is wider than width.
func wrap(width int, text string) string { return ansi.Wrap(text, width, "") }

// beside puts two blocks next to each other.
func beside(left, right string, gap int) string {
	return lipgloss.JoinHorizontal(lipgloss.Top, left, strings.Repeat(" ", gap), right)
}

// tooSmall is all that a screen without room shows.
func tooSmall(width, height int) string {
	text := "sparetone needs 60 × 20; this terminal is smaller. Make it larger, or leave with ctrl+c."
	lines := strings.Split(ansi.Wrap(text, max(1, width), ""), "\n")
	return strings.Join(lines[:min(len(lines), max(1, height))], "\n")
}
