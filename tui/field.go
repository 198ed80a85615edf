package tui

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"charm.land/bubbles/v2/key"
	"charm.land/bubbles/v2/textinput"
	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"
)

// field is a line of text being typed, with completion. The terminal's own cursor stands in it: screen
// readers and magnifiers follow that one, and it needs no timer to blink.
type field struct {
	textinput.Model
	complete func(begun string) []string // what a text that has been begun may become; nil if that is not known
}

// longestAnswer is how many characters a field takes.
const longestAnswer = 60

// newField is an empty field that is being typed in.
func newField(complete func(begun string) []string) field {
	m := textinput.New()
	m.Prompt, m.CharLimit, m.ShowSuggestions = "", longestAnswer, true
	m.KeyMap.AcceptSuggestion = key.NewBinding(key.WithKeys("tab"))
	m.KeyMap.NextSuggestion, m.KeyMap.PrevSuggestion = key.NewBinding(key.WithKeys("down")), key.NewBinding(key.WithKeys("up"))
	m.KeyMap.Paste = key.NewBinding() // pasting is the terminal's; this would run another program for it
	m.SetVirtualCursor(false)
	m.Focus()
	return field{m, complete}
}

// text is what was typed.
func (f *field) text() string { return strings.TrimSpace(f.Value()) }

// update takes a key or a paste.
func (f *field) update(msg tea.Msg) {
	switch m := msg.(type) {
	case tea.KeyPressMsg:
		m.Text = printed(m.Text)
		msg = m
	case tea.PasteMsg:
		m.Content = printed(m.Content[:min(len(m.Content), utf8.UTFMax*f.CharLimit)])
		msg = m
	}
	was := f.Value()
	f.Model, _ = f.Model.Update(msg)
	if begun := f.Value(); begun != was && f.complete != nil {
		same := func(s string) bool { return strings.EqualFold(s, begun) }
		f.SetSuggestions(slices.DeleteFunc(slices.Clone(f.complete(begun)), same))
	}
}

// printed is a text without what does not print.
func printed(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case !unicode.IsPrint(r):
			return -1
		}
		return r
	}, s)
}

// view adds the field after a word that says what it is for. Where it is longer than the line, what is
// typed stays in sight. What it may become is not in it: enter answers what is.
func (f *field) view(b *body, label string) {
	style := textinput.StyleState{Text: b.theme.Strong}
	f.SetStyles(textinput.Styles{Focused: style, Blurred: style})
	typed := f.Model
	typed.SetSuggestions(nil)
	from := ansi.StringWidth(label)
	at := ansi.StringWidth(string([]rune(f.Value())[:f.Position()]))
	room := b.col - from
	gone := max(0, at+1-room)
	if f.Focused() {
		b.cursor = tea.NewCursor(from+at-gone, b.next())
		b.keep(b.next())
	}
	b.add(b.theme.Quiet.Render(label) + ansi.Cut(typed.View(), gone, gone+room))
}

// list adds a line of what the text may become, from the one that would be filled in.
func (f *field) list(b *body) {
	found := f.MatchedSuggestions()
	if !f.Focused() || len(found) == 0 {
		b.gap()
		return
	}
	n, fills := f.CurrentSuggestionIndex(), "tab: "
	b.add(b.theme.Quiet.Render(fills + inOneLine(slices.Concat(found[n:], found[:n]), b.col-len(fills))))
}

// inOneLine joins as many words as there is room for.
func inOneLine(words []string, room int) string {
	line := words[0]
	for _, w := range words[1:] {
		if ansi.StringWidth(line)+3+ansi.StringWidth(w) > room {
			break
		}
		line += "   " + w
	}
	return line
}
