package tui

import (
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"

	"sparetone/drills"
	"sparetone/drills/practice"
)

// settingsScreen shows the settings, a line each; arrows step through what each may be. What is set holds
// at once and is kept.
type settingsScreen struct {
	menu
	back screen
}

var (
	keyChange = named(bind("change", "←→", "right", "left"), "←→", "change")
	keyTone   = labelled(keyHear, "hear it")
)

func newSettings(back screen) screen {
	s := &settingsScreen{back: back}
	for _, k := range practice.AllSettings {
		s.lines = append(s.lines, line{text: string(k.Title)})
	}
	return s
}

func (s *settingsScreen) keys(a *app) []key.Binding {
	out := []key.Binding{keyChange, keyMark}
	if !a.Setup.Silent {
		out = append(out, keyTone)
	}
	return append(out, labelled(keyLeave, "back"), labelled(keyGoOn, "change"))
}

func (s *settingsScreen) update(a *app, msg tea.Msg) (screen, tea.Cmd) {
	if press, ok := msg.(tea.KeyPressMsg); ok {
		switch {
		case key.Matches(press, keyLeave):
			a.hush()
			a.replan()
			return s.back, nil
		case key.Matches(press, keyLeft):
			return s, s.change(a, -1)
		case key.Matches(press, keyRight):
			return s, s.change(a, 1)
		case key.Matches(press, keyHear):
			return s, a.sample()
		}
	}
	if _, ok := s.menu.update(msg); ok {
		return s, s.change(a, 1)
	}
	return s, nil
}

// change steps the marked setting.
func (s *settingsScreen) change(a *app, by int) tea.Cmd {
	k := &practice.AllSettings[s.at]
	a.own[k.ID] = k.OffList(&a.Settings, a.own[k.ID])
	return a.choose(k, k.Step(&a.Settings, a.own[k.ID], by))
}

// choose sets a setting, and lets it be heard or seen at once.
func (a *app) choose(k *practice.Setting, value string) tea.Cmd {
	if err := a.Set(k.ID, value); err != nil {
		a.said = practice.Sentence(err.Error())
		return nil
	}
	switch k.ID {
	case "volume", "voice", "a4", "tuning", "capo":
		return a.sample()
	case "colours":
		a.dress()
	}
	return nil
}

// sample plays the open strings as the settings have them.
func (a *app) sample() tea.Cmd {
	on, err := a.Settings.Instrument()
	if err != nil {
		return nil
	}
	return a.play(on.Voices[0], drills.OpenStrings(on)...)
}

// replan makes the session anew if it has not begun, so that it is of the settings as they are now.
func (a *app) replan() {
	if !a.Fresh() {
		return
	}
	if err := a.Begin(a.Called); err != nil {
		a.said = practice.Sentence(err.Error())
	}
}

func (s *settingsScreen) view(a *app, b *body) {
	b.say(a.theme.Strong, "Settings")
	b.gap()
	widest := 0
	for _, k := range practice.AllSettings {
		widest = max(widest, ansi.StringWidth(string(k.Title)))
	}
	for i, k := range practice.AllSettings {
		mark, style := unmarked, a.theme.Text
		value := k.Short(k.Get(&a.Settings)).Screen()
		if i == s.at {
			mark, style = marked, a.theme.Strong
			value = "‹ " + value + " ›"
			b.keep(b.next())
		} else {
			value = "  " + value
		}
		b.click(b.next(), 0, b.col, chosenMsg{i})
		b.add(style.Render(mark+string(k.Title)) + strings.Repeat(" ", widest-ansi.StringWidth(string(k.Title))+2) + style.Render(value))
	}
	b.gap()
	b.say(a.theme.Quiet, practice.AllSettings[s.at].Explained(&a.Settings).Screen())
	if last := b.next() - 1; last-b.kept < b.rows-2 {
		b.keep(last) // what is said of the marked line is in sight with it
	}
}
