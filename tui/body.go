package tui

import (
	"slices"
	"strings"

	tea "charm.land/bubbletea/v2"
	"charm.land/lipgloss/v2"
	"github.com/charmbracelet/x/ansi"

	"sparetone/tui/draw"
	"sparetone/tui/page"
)

// sight is how pages are seen: what drawing needs to know beside the page.
type sight struct {
	theme       draw.Theme
	left, still bool                   // necks for left-handed players; nothing moves
	moved       bool                   // the mark was: it stays in sight
	phase       int                    // of the trembling
	levels      func() map[int]float64 // how strongly each string sounds
}

// body is what is drawn in the column: its lines, what a click on them does, and where typed text goes.
type body struct {
	sight
	col    int // columns there are
	rows   int // lines that can be seen at once
	lines  []string
	spots  []spot
	size   draw.Size    // of pictures
	small  bool         // there is little room: pictures are drawn small
	dense  bool         // there is not even room for those: what is there if there is room is left out
	closer int          // empty lines that set things apart and are still to be left out, where that makes all of the page fit
	screen int          // columns of the whole screen, for pictures wider than the column
	spread map[int]bool // lines of such pictures: they stand in the middle of the screen
	kept   int          // a line that has to be in sight; -1 if there is none
	keptTo int          // the last of the lines that have to be in sight with it
	list   *list        // that paging goes through; nil if it goes through all that is shown
	cursor *tea.Cursor  // in the body's own columns and lines; nil if nothing is typed
}

// spot is a place on the screen that stands for a message: the columns from one up to another of a line.
type spot struct {
	row, from, to int
	means         tea.Msg
}

func newBody(l sight, screen, rows int, size draw.Size) *body {
	return &body{sight: l, screen: screen, col: column(screen), rows: rows, size: size, small: size == draw.Small, spread: map[int]bool{}, kept: -1}
}

// widest is how wide a picture may be.
func (b *body) widest() int { return max(b.col, b.screen-4) }

// picture adds a block in the middle. It returns how far right of the column's left edge the block begins, less than 0 where
// it is wider than the column.
func (b *body) picture(block string) (left int) {
	if wide := lipgloss.Width(block); wide > b.col {
		for n := range lipgloss.Height(block) {
			b.spread[b.next()+n] = true
		}
		b.add(block)
		return margin(b.screen, wide) - margin(b.screen, b.col)
	}
	b.add(middle(b.col, block))
	return indent(b.col, block)
}

// add adds a block of lines as it is.
func (b *body) add(block string) { b.lines = append(b.lines, strings.Split(block, "\n")...) }

// say adds a paragraph, broken at spaces to fit the column.
func (b *body) say(style lipgloss.Style, text string) {
	b.lines = append(b.lines, inStyle(style, wrap(b.col, clean(text)))...)
}

// sentence adds a sentence in the style of its tone.
func (b *body) sentence(s page.Sentence) {
	if s.IfRoom && b.dense {
		return
	}
	b.say(b.tone(s.Tone), s.Text.Screen())
}

// tone is the style of a tone.
func (b *body) tone(t page.Tone) lipgloss.Style {
	return *[...]*lipgloss.Style{
		page.Plain: &b.theme.Text, page.Quiet: &b.theme.Quiet, page.Strong: &b.theme.Strong, page.Right: &b.theme.Right, page.Wrong: &b.theme.Wrong,
	}[t]
}

// hang adds rows behind what stands before the first of them, the others below it. A click on them means something, nil
// if nothing.
func (b *body) hang(before string, width int, rows []string, means tea.Msg) {
	for _, row := range rows {
		if means != nil {
			b.click(b.next(), 0, b.col, means)
		}
		b.add(before + row)
		before = strings.Repeat(" ", width)
	}
}

// gap adds an empty line.
func (b *body) gap() { b.lines = append(b.lines, "") }

// setApart adds an empty line that sets two things apart, unless as many as that are to be left out.
func (b *body) setApart() {
	if b.closer > 0 {
		b.closer--
		return
	}
	b.gap()
}

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

// first is the first line that shows, where scroll would be it and what has to be in sight allows it.
func (b *body) first(scroll int) int {
	if b.kept >= 0 {
		scroll = max(scroll, b.keptTo+2-b.rows)
		scroll = min(scroll, b.kept-1)
	}
	return max(0, min(scroll, len(b.lines)-b.rows))
}

// below is how many lines are out of sight below, where first is the first that shows.
func (b *body) below(first int) int { return max(0, len(b.lines)-b.rows-first) }

// tight reports whether there is more than the column has room for, with a little air.
func (b *body) tight() bool {
	if len(b.lines) > b.rows-2 {
		return true
	}
	for n, l := range b.lines {
		if room := b.room(n); ansi.StringWidth(l) > room {
			return true
		}
	}
	return false
}

// room is how many columns a line may take.
func (b *body) room(line int) int {
	if b.spread[line] {
		return b.widest()
	}
	return b.col
}

// at returns what a click on a column of a line means.
func at(spots []spot, x, y int) (tea.Msg, bool) {
	i := slices.IndexFunc(spots, func(s spot) bool { return s.row == y && s.from <= x && x < s.to })
	if i < 0 {
		return nil, false
	}
	return spots[i].means, true
}
