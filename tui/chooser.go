package tui

import (
	"fmt"
	"strconv"
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"

	"sparetone/drills"
)

// chooser enters an answer by choosing one of a few: with the key before it, with arrows, or with the
// mouse.
type chooser struct {
	choices []drills.Choice
	at      int
	lit     bool // the mark shows: it was moved
}

func (c *chooser) typing() bool   { return false }
func (c *chooser) pictures() bool { return false }

func (c *chooser) keys() []key.Binding {
	answer, mark := named(keyAnswer, fmt.Sprintf("1–%d", len(c.choices)), "answer"), labelled(keyMark, "mark")
	if c.lit {
		return []key.Binding{labelled(keyGoOn, "answer"), mark, answer}
	}
	return []key.Binding{answer, mark}
}

func (c *chooser) update(a *app, msg tea.Msg) (string, bool, tea.Cmd) {
	press, ok := msg.(tea.KeyPressMsg)
	last := len(c.choices) - 1
	switch {
	case !ok:
	case key.Matches(press, keyAnswer):
		if n, err := strconv.Atoi(press.String()); err == nil && n <= len(c.choices) {
			return c.choices[n-1].Typed, true, nil
		}
		a.said = fmt.Sprintf("There are answers 1 to %d.", len(c.choices))
	case key.Matches(press, keyDown) && !c.lit:
		c.at, c.lit = 0, true
	case key.Matches(press, keyUp) && !c.lit:
		c.at, c.lit = last, true
	case key.Matches(press, keyDown):
		c.at = min(last, c.at+1)
	case key.Matches(press, keyUp):
		c.at = max(0, c.at-1)
	case key.Matches(press, keyGoOn) && c.lit:
		return c.choices[c.at].Typed, true, nil
	case key.Matches(press, keyGoOn):
		a.said = "Choose first: press the number before an answer."
	}
	return "", false, nil
}

func (c *chooser) view(a *app, b *body) {
	widest := 0
	for _, choice := range c.choices {
		widest = max(widest, ansi.StringWidth(choice.Said.Screen()))
	}
	left := max(0, (b.col-widest-5)/2)
	for i, choice := range c.choices {
		mark, style := unmarked, a.theme.Text
		if c.lit && i == c.at {
			mark, style = marked, a.theme.Strong
		}
		n := strconv.Itoa(i + 1)
		rows := inStyle(style, wrap(max(1, b.col-5), choice.Said.Screen()))
		if c.lit && i == c.at {
			b.keepRows(b.next(), b.next()+len(rows)-1)
		}
		before := style.Render(mark) + a.theme.Quiet.Render(n) + "  "
		for _, row := range rows {
			b.click(b.next(), left, left+widest+5, pressed(n))
			b.add(shift(left, before+row))
			before = strings.Repeat(" ", 5)
		}
	}
}
