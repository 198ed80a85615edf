package tui

import (
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"
)

// menu is a list to choose one line from: with arrows and enter, with the key that stands before it, or
// with the mouse.
type menu struct {
	lines []line
	at    int
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
	for i, l := range m.lines {
		mark, style := unmarked, a.theme.Text
		if i == m.at {
			mark, style = marked, a.theme.Strong
			b.keep(b.next())
		}
		text := style.Render(mark)
		if keys > 0 {
			text += a.theme.Quiet.Render(pad(l.key, keys+2))
		}
		text += style.Render(l.text)
		if l.quiet != "" {
			text += strings.Repeat(" ", max(0, widest-ansi.StringWidth(l.text))+3) + a.theme.Quiet.Render(l.quiet)
		}
		b.click(b.next(), 0, b.col, chosenMsg{i})
		b.add(ansi.Truncate(text, b.col, "…"))
	}
}

// keys are the keys of a menu of which choosing does something.
func (m *menu) keys(does string) []key.Binding {
	return []key.Binding{labelled(keyGoOn, does), named(keyUp, "↑↓", "choose"), named(keyDown, "", "choose")}
}
