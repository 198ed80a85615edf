package tui

import (
	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"sparetone/drills/practice"
)

// keySave leads to saving practice in another file. It works where there is something to save.
var keySave = bind("save", "s", "s")

// longestPath is how many characters of a path can be typed.
const longestPath = 1000

// saving is the screen on which the place is named where practice is to be saved.
type saving struct {
	field
	back   *ending
	failed string
}

func newSaving(a *app, back *ending) *saving {
	s := &saving{field: newField(func(string) []string { return nil }), back: back}
	s.CharLimit = longestPath
	s.SetValue(a.Proposed())
	return s
}

func (s *saving) typing() bool { return true }

func (s *saving) keys(a *app) []key.Binding {
	return []key.Binding{labelled(keyGoOn, "save"), labelled(keyEscape, "back")}
}

func (s *saving) update(a *app, msg tea.Msg) (screen, tea.Cmd) {
	press, ok := msg.(tea.KeyPressMsg)
	switch {
	case ok && key.Matches(press, keyEscape):
		return s.back, nil
	case ok && key.Matches(press, keyHelp):
		a.help = true
		return s, nil
	case ok && key.Matches(press, keyGoOn):
		said, err := a.Save(s.text())
		if err != nil {
			s.failed = practice.Sentence(err.Error())
			return s, nil
		}
		s.back.lost, s.back.saved = a.Unkept(), said
		a.quiet = ""
		return s.back, nil
	}
	s.failed = ""
	s.field.update(msg)
	return s, nil
}

func (s *saving) view(a *app, b *body) {
	b.say(a.theme.Strong, "Where is practice to be saved?")
	b.gap()
	b.say(a.theme.Text, "A new progress file is made there, with all that was practised, and practice goes on in it. Nothing is written over.")
	b.gap()
	s.field.view(a, b, "File  ")
	if s.failed != "" {
		b.gap()
		b.say(a.theme.Wrong, "✗ "+s.failed)
	}
}
