package tui

import (
	"strings"
	"unicode"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"
)

// field is a line of text being typed, with completion. The terminal's own cursor stands in it: screen
// readers and magnifiers follow that one, and it needs no timer to blink.
type field struct {
	text   []rune
	at     int      // where the next letter goes
	found  []string // what the text may become
	which  int      // of these
	asleep bool     // letters do not go here now
}

// longestAnswer is how many characters a field takes.
const longestAnswer = 60

// The keys within a field, as every line of text on a terminal has them.
var (
	keyHome   = bind("to the start", "home", "home", "ctrl+a")
	keyEnd    = bind("to the end", "end", "end", "ctrl+e")
	keyBack   = bind("take back", "⌫", "backspace", "ctrl+h")
	keyDelete = bind("delete", "del", "delete")
	keyEmpty  = bind("empty the line", "ctrl+u", "ctrl+u")
)

// value is what was typed.
func (f *field) value() string { return strings.TrimSpace(string(f.text)) }

// put puts a text into the field, in place of what was there.
func (f *field) put(s string) {
	f.text, f.at, f.found, f.which = nil, 0, nil, 0
	f.insert(s)
}

// insert types a text at the cursor, without what does not print.
func (f *field) insert(s string) {
	for _, r := range s {
		if len(f.text) == longestAnswer {
			return
		}
		if unicode.IsPrint(r) && r != unicode.ReplacementChar && ansi.StringWidth(string(r)) == 1 {
			f.text = append(f.text[:f.at], append([]rune{r}, f.text[f.at:]...)...)
			f.at++
		}
	}
}

// update takes a key or a paste; suggest says what a text that has been begun may become.
func (f *field) update(msg tea.Msg, suggest func(begun string) []string) {
	switch msg := msg.(type) {
	case tea.PasteMsg:
		f.insert(msg.Content[:min(len(msg.Content), 4*longestAnswer)])
	case tea.KeyPressMsg:
		switch {
		case key.Matches(msg, keyLeft):
			f.at = max(0, f.at-1)
			return
		case key.Matches(msg, keyRight) && f.at < len(f.text):
			f.at++
			return
		case key.Matches(msg, keyHome):
			f.at = 0
		case key.Matches(msg, keyEnd):
			f.at = len(f.text)
		case key.Matches(msg, keyBack) && f.at > 0:
			f.at--
			f.text = append(f.text[:f.at], f.text[f.at+1:]...)
		case key.Matches(msg, keyDelete) && f.at < len(f.text):
			f.text = append(f.text[:f.at], f.text[f.at+1:]...)
		case key.Matches(msg, keyEmpty):
			f.put("")
		case key.Matches(msg, keyUp, keyDown) && len(f.found) > 0:
			by := 1
			if key.Matches(msg, keyUp) {
				by = -1
			}
			f.which = (f.which + by + len(f.found)) % len(f.found)
			return
		case key.Matches(msg, keyFill, keyRight) && len(f.found) > 0:
			f.put(f.found[f.which])
		case msg.Text != "" && msg.Mod&(tea.ModCtrl|tea.ModAlt) == 0:
			f.insert(msg.Text)
		case msg.Code == tea.KeySpace:
			f.insert(" ")
		default:
			return
		}
	default:
		return
	}
	f.found, f.which = nil, 0
	if len(f.text) > 0 {
		f.found = suggest(string(f.text))
	}
}

// view adds the field after a word that says what it is for, with what it may become behind it.
func (f *field) view(a *app, b *body, label string) {
	from := ansi.StringWidth(label)
	if !f.asleep {
		b.cursor = tea.NewCursor(from+f.at, b.next())
		b.keep(b.next())
	}
	text := a.theme.Strong.Render(string(f.text))
	if len(f.found) > 0 && f.at == len(f.text) {
		rest := []rune(f.found[f.which])
		text += a.theme.Quiet.Render(string(rest[min(len(rest), len(f.text)):]))
	}
	b.add(a.theme.Quiet.Render(label) + text)
}
