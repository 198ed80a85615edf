package tui

import (
	"strings"

	"charm.land/lipgloss/v2"
	"github.com/charmbracelet/x/ansi"

	"sparetone/theory"
)

// margin is what stands left of a column in the middle of the screen.
func margin(width, col int) int { return max(0, (width-col)/2) }

// centre puts a line of a column of width col into the middle of the screen.
func centre(width, col int, line string) string {
	if line == "" {
		return ""
	}
	return strings.Repeat(" ", margin(width, col)) + ansi.Truncate(line, col, "…")
}

// indent is how far a block has to move to stand in the middle of a column.
func indent(col int, block string) int { return max(0, (col-lipgloss.Width(block))/2) }

// shift moves a block of lines to the right.
func shift(by int, block string) string {
	pad := strings.Repeat(" ", by)
	return pad + strings.ReplaceAll(block, "\n", "\n"+pad)
}

// middle centres a block of lines within a column.
func middle(col int, block string) string { return shift(indent(col, block), block) }

// wrap breaks text at spaces so that no line is wider than width.
func wrap(width int, text string) string { return ansi.Wrap(text, width, "") }

// rows are the lines of a text that is broken at spaces.
func rows(width int, text string) []string { return strings.Split(wrap(width, text), "\n") }

// beside puts two blocks next to each other.
func beside(left, right string, gap int) string {
	return lipgloss.JoinHorizontal(lipgloss.Top, left, strings.Repeat(" ", gap), right)
}

// inStyle is the lines of a text, each in a style.
func inStyle(style lipgloss.Style, text string) []string {
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		lines[i] = style.Render(l)
	}
	return lines
}

// pad fills a word up to a width, with a space behind it at the least.
func pad(s string, width int) string {
	return s + strings.Repeat(" ", max(1, width-ansi.StringWidth(s)))
}

// clean is a text, of which only the ends of lines stay beside what can be shown.
func clean(text string) string {
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		lines[i] = theory.Clean(l)
	}
	return strings.Join(lines, "\n")
}
