package tui

import (
	"fmt"
	"strings"

	"sparetone/tui/draw"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"charm.land/lipgloss/v2"
	"github.com/charmbracelet/x/ansi"
)

// menu is a list to choose one line from: with arrows and enter, with the key that stands before it, or
// with the mouse.
type menu struct {
	lines []line
	at    int

	starts []int // the rows on which the lines begin, as they were drawn last
}

// What stands before the lines of a list: the mark, and where it could be.
const (
	marked   = "› "
	unmarked = "  "
)

// line is one line of a menu.
type line struct {
	key   string // what chooses it at once; empty if only arrows and the mouse do
	text  string
	quiet string // what more there is to say of it
}

// digits gives the first nine lines the keys 1 to 9.
func digits(lines []line) []line {
	for i := range lines[:min(len(lines), 9)] {
		lines[i].key = string(rune('1' + i))
	}
	return lines
}

// chosenMsg is a line that was clicked.
type chosenMsg struct{ line int }

// update moves the mark. It returns the line that was chosen, once one is.
func (m *menu) update(msg tea.Msg) (chosen int, ok bool) {
	switch msg := msg.(type) {
	case chosenMsg:
		if msg.line >= 0 && msg.line < len(m.lines) {
			m.at = msg.line
			return m.at, true
		}
	case tea.KeyPressMsg:
		switch {
		case key.Matches(msg, keyUp):
			m.at = max(0, m.at-1)
		case key.Matches(msg, keyDown):
			m.at = min(len(m.lines)-1, m.at+1)
		case key.Matches(msg, keyGoOn):
			return m.at, len(m.lines) > 0
		default:
			for i, l := range m.lines {
				if l.key != "" && msg.String() == l.key {
					m.at = i
					return i, true
				}
			}
		}
	}
	return 0, false
}

// widths are how wide the widest key, text and what more is said are, and how wide all is with what stands
// between them.
func (m *menu) widths() (keys, texts, quiets, all int) {
	for _, l := range m.lines {
		keys = max(keys, ansi.StringWidth(l.key))
		texts = max(texts, ansi.StringWidth(l.text))
		quiets = max(quiets, ansi.StringWidth(l.quiet))
	}
	return keys, texts, quiets, keys + texts + quiets + 7
}

func (m *menu) view(a *app, b *body) {
	keys, widest, quiet, all := m.widths()
	if all > b.col && quiet < 16 {
		widest = 0 // what is said of a line then stands right behind it
	}
	margin := ansi.StringWidth(unmarked)
	if keys > 0 {
		margin += keys + 2
	}
	b.list, m.starts = m, nil
	for i, l := range m.lines {
		mark, style := unmarked, a.theme.Text
		if i == m.at {
			mark, style = marked, a.theme.Strong
		}
		gap := max(0, widest-ansi.StringWidth(l.text)) + 3
		rows := l.rows(a.theme, style, max(1, b.col-margin), gap)
		from := b.next()
		m.starts = append(m.starts, from)
		if i == m.at {
			b.keepRows(from, from+len(rows)-1)
		}
		before := style.Render(mark)
		if keys > 0 {
			before += a.theme.Quiet.Render(pad(l.key, keys+2))
		}
		for _, row := range rows {
			b.click(b.next(), 0, b.col, chosenMsg{i})
			b.add(before + row)
			before = strings.Repeat(" ", margin)
		}
	}
}

// rows are what stands on a line behind its key, broken where there is no room for it: what more there is to
// say follows after a gap, or on rows of its own.
func (l *line) rows(th draw.Theme, style lipgloss.Style, room, gap int) []string {
	rows := inStyle(style, wrap(room, l.text))
	if len(rows) > 1 { // set in, so that it does not look like another line
		rows = inStyle(style, wrap(max(1, room-2), l.text))
		for i := range rows[1:] {
			rows[i+1] = "  " + rows[i+1]
		}
	}
	switch {
	case l.quiet == "":
	case len(rows) == 1 && ansi.StringWidth(l.text)+gap+ansi.StringWidth(l.quiet) <= room:
		rows[0] += strings.Repeat(" ", gap) + th.Quiet.Render(l.quiet)
	default:
		rows = append(rows, inStyle(th.Quiet, wrap(room, l.quiet))...)
	}
	return rows
}

// inStyle is the lines of a text, each in a style.
func inStyle(style lipgloss.Style, text string) []string {
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		lines[i] = style.Render(l)
	}
	return lines
}

// page moves the mark by some rows of the screen, or a line where that is more. It reports whether it moved.
func (m *menu) page(by int) bool {
	was, step := m.at, 1
	if by < 0 {
		step = -1
	}
	for n := was + step; n >= 0 && n < len(m.starts); n += step {
		if gone := (m.starts[n] - m.starts[was]) * step; gone > by*step && n != was+step {
			break
		}
		m.at = n
	}
	return m.at != was
}

// keys are the keys of a menu of which choosing does something, with others after the first of them.
func (m *menu) keys(does string, others ...key.Binding) []key.Binding {
	out := append([]key.Binding{labelled(keyGoOn, does), keyMark}, others...)
	if n := min(len(m.lines), 9); n > 0 && m.lines[0].key == "1" {
		out = append(out, named(keyAnswer, fmt.Sprintf("1–%d", n), "by number"))
	}
	return out
}
