package tui

import (
	"slices"
	"strings"

	tea "charm.land/bubbletea/v2"
	"charm.land/lipgloss/v2"
	"github.com/charmbracelet/x/ansi"

	"sparetone/theory"
)

// body is what a screen shows in the column: its lines, what a click on them does, and where typed text
// goes.
type body struct {
	col    int // columns there are
	rows   int // lines that can be seen at once
	lines  []string
	spots  []spot
	small  bool        // there is little room: pictures are drawn small
	kept   int         // a line that has to be in sight; -1 if there is none
	keptTo int         // the last of the lines that have to be in sight with it
	list   *menu       // the list that paging goes through; nil if it goes through all that is shown
	cursor *tea.Cursor // in the body's own columns and lines; nil if nothing is typed
}

// spot is a place on the screen that stands for a message: the columns from one up to another of a line.
type spot struct {
	row, from, to int
	means         tea.Msg
}

func newBody(col, rows int) *body { return &body{col: col, rows: rows, kept: -1} }

// add adds a block of lines as it is.
func (b *body) add(block string) { b.lines = append(b.lines, strings.Split(block, "\n")...) }

// say adds a paragraph, broken at spaces to fit the column.
func (b *body) say(style lipgloss.Style, text string) {
	for _, l := range strings.Split(wrap(b.col, clean(text)), "\n") {
		b.lines = append(b.lines, style.Render(l))
	}
}

// clean is a text, of which only the ends of lines stay beside what can be shown.
func clean(text string) string {
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		lines[i] = theory.Clean(l)
	}
	return strings.Join(lines, "\n")
}

// gap adds an empty line.
func (b *body) gap() { b.lines = append(b.lines, "") }

// next is the number of the line that will be added next.
func (b *body) next() int { return len(b.lines) }

// click says what a click on part of a line means.
func (b *body) click(row, from, to int, means tea.Msg) {
	b.spots = append(b.spots, spot{row, from, to, means})
}

// keep says that a line has to be in sight.
func (b *body) keep(row int) { b.keepRows(row, row) }

// keepRows says that lines from one to another have to be in sight, the first one above all.
func (b *body) keepRows(from, to int) { b.kept, b.keptTo = from, to }

// first is the first line that shows, if it is to be some line and what has to be in sight allows it.
func (b *body) first(scroll int) int {
	if b.kept >= 0 {
		scroll = max(scroll, b.keptTo+2-b.rows)
		scroll = min(scroll, b.kept-1)
	}
	return max(0, min(scroll, len(b.lines)-b.rows))
}

// below is how many lines are out of sight below, if the first that shows is some line.
func (b *body) below(first int) int { return max(0, len(b.lines)-b.rows-first) }

// tight reports whether there is more than the column has room for, with a little air.
func (b *body) tight() bool {
	return len(b.lines) > b.rows-2 || slices.ContainsFunc(b.lines, func(l string) bool { return ansi.StringWidth(l) > b.col })
}

// at returns what a click on a column of a line means.
func at(spots []spot, x, y int) (tea.Msg, bool) {
	i := slices.IndexFunc(spots, func(s spot) bool { return s.row == y && s.from <= x && x < s.to })
	if i < 0 {
		return nil, false
	}
	return spots[i].means, true
}
