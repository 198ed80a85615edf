package tui

import (
	"strings"

	"charm.land/bubbles/v2/key"
	"github.com/charmbracelet/x/ansi"
)

// The keys are the same on every screen; each screen says which of them work on it.
var (
	keyAnswer = key.NewBinding(key.WithKeys("1", "2", "3", "4", "5"), key.WithHelp("1–5", "answer"))
	keyUp     = key.NewBinding(key.WithKeys("up"), key.WithHelp("↑", "up"))
	keyDown   = key.NewBinding(key.WithKeys("down"), key.WithHelp("↓", "down"))
	keyGoOn   = key.NewBinding(key.WithKeys("enter"), key.WithHelp("enter", "go on"))
	keyHear   = key.NewBinding(key.WithKeys("space"), key.WithHelp("space", "again"))
	keyOpen   = key.NewBinding(key.WithKeys("o"), key.WithHelp("o", "open up"))
	keyBoth   = key.NewBinding(key.WithKeys("b"), key.WithHelp("b", "hear both"))
	keyWhy    = key.NewBinding(key.WithKeys("y"), key.WithHelp("y", "why now"))
	keyLouder = key.NewBinding(key.WithKeys("+", "="), key.WithHelp("+", "louder"))
	keySofter = key.NewBinding(key.WithKeys("-"), key.WithHelp("-", "softer"))
	keyHelp   = key.NewBinding(key.WithKeys("?"), key.WithHelp("?", "help"))
	keyLeave  = key.NewBinding(key.WithKeys("q", "esc"), key.WithHelp("q", "leave"))
	keyQuit   = key.NewBinding(key.WithKeys("ctrl+c"), key.WithHelp("ctrl+c", "leave at once"))
)

// labelled is a binding that says on this screen what it does here.
func labelled(b key.Binding, does string) key.Binding {
	b.SetHelp(b.Help().Key, does)
	return b
}

// foot writes what can be pressed in one line, from the bindings themselves: the first ones as far as
// there is room, and always the last one, which leads to the rest.
func foot(th Theme, width int, bindings []key.Binding) string {
	const gap = "   "
	show := func(k key.Binding) string {
		return th.Text.Render(k.Help().Key) + " " + th.Quiet.Render(k.Help().Desc)
	}
	last := show(bindings[len(bindings)-1])
	line := ""
	for _, k := range bindings[:len(bindings)-1] {
		longer := line + show(k) + gap
		if ansi.StringWidth(longer+last) > width {
			break
		}
		line = longer
	}
	return line + last
}

// helpText writes every binding of a screen, a line each.
func helpText(th Theme, bindings []key.Binding) string {
	var lines []string
	for _, k := range bindings {
		h := k.Help()
		lines = append(lines, th.Text.Render(h.Key+strings.Repeat(" ", max(1, 10-ansi.StringWidth(h.Key))))+th.Quiet.Render(h.Desc))
	}
	return strings.Join(lines, "\n")
}
