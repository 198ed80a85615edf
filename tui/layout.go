package tui

import (
	"strings"

	tea "charm.land/bubbletea/v2"
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
	left, room := margin(width, b.col), b.rows
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
	for n, l := range shown {
		room := b.col
		if b.spread[p.scroll+n] {
			room = min(b.widest(), ansi.StringWidth(l))
		}
		p.lines = append(p.lines, centre(width, room, l))
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

// tooSmall is all that a screen shows on which nothing has room.
func tooSmall(width, height int) laid {
	lines := strings.Split(wrap(max(1, width), "This window is too small: make it 40 by 10 or larger."), "\n")
	return laid{lines: lines[:min(len(lines), max(1, height))]}
}
