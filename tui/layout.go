package tui

import (
	"strings"

	tea "charm.land/bubbletea/v2"
	"charm.land/lipgloss/v2"
	"github.com/charmbracelet/x/ansi"
)

// The smallest screen on which everything has room, and the widest column.
const (
	leastWidth  = 40
	leastHeight = 10
	columnWidth = 72
)

// column is how wide text may be on a screen of this width.
func column(width int) int { return max(1, min(columnWidth, width-4)) }

// laid is a screen laid out: its lines, and what a click on them means.
type laid struct {
	lines  []string
	spots  []spot
	cursor *tea.Cursor
	more   bool  // there is more than can be seen
	below  bool  // some of it is below
	list   *list // that paging goes through; nil if it goes through all that is shown
	scroll int   // lines of the body that have gone up out of sight
}

// layOut sets a screen's parts: the head above all, the body in one centred column with white space around it,
// and the foot (what can be pressed) on the last line. A body that is too long shows from a line on.
func layOut(width, height int, head []string, b *body, foot string, footSpots []spot, scroll int) laid {
	left, room := max(0, (width-b.col)/2), b.rows
	p := laid{more: len(b.lines) > room, list: b.list, scroll: b.first(scroll)}
	p.below = b.below(p.scroll) > 0
	shown := b.lines[p.scroll:min(len(b.lines), p.scroll+room)]
	top := len(head) + (room-len(shown))/3
	for _, l := range head {
		p.lines = append(p.lines, centre(width, b.col, l))
	}
	for len(p.lines) < top {
		p.lines = append(p.lines, "")
	}
	for _, l := range shown {
		p.lines = append(p.lines, centre(width, b.col, l))
	}
	for len(p.lines) < height-1 {
		p.lines = append(p.lines, "")
	}
	p.lines = append(p.lines, centre(width, b.col, foot))
	for _, s := range b.spots {
		if s.row >= p.scroll && s.row < p.scroll+len(shown) {
			p.spots = append(p.spots, spot{s.row - p.scroll + top, s.from + left, s.to + left, s.means})
		}
	}
	for _, s := range footSpots {
		p.spots = append(p.spots, spot{height - 1, s.from + left, s.to + left, s.means})
	}
	if c := b.cursor; c != nil && c.Y >= p.scroll && c.Y < p.scroll+len(shown) {
		moved := *c
		moved.X, moved.Y = min(c.X+left, width-1), c.Y-p.scroll+top
		p.cursor = &moved
	}
	return p
}

// centre puts a line of a column of width col into the middle of the screen.
func centre(width, col int, line string) string {
	if line == "" {
		return ""
	}
	return strings.Repeat(" ", max(0, (width-col)/2)) + ansi.Truncate(line, col, "…")
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

// tooSmall is all that a screen shows on which nothing has room.
func tooSmall(width, height int) laid {
	lines := strings.Split(wrap(max(1, width), "This window is too small: make it 40 by 10 or larger."), "\n")
	return laid{lines: lines[:min(len(lines), max(1, height))]}
}
