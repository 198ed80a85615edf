package tui

import (
	"fmt"
	"slices"
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"

	"sparetone/drills"
	"sparetone/drills/course"
	"sparetone/synth"
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
	for _, k := range settings {
		s.lines = append(s.lines, line{text: k.title})
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
	k := &settings[s.at]
	a.own[k.id] = k.own(&a.Settings, a.own[k.id])
	return a.choose(k, k.step(&a.Settings, a.own[k.id], by))
}

// choose sets a setting, and lets it be heard or seen at once.
func (a *app) choose(k *kept, value string) tea.Cmd {
	if err := a.set(k.id, value); err != nil {
		a.said = sentence(err.Error())
		return nil
	}
	switch k.id {
	case "volume", "voice", "a4", "tuning", "capo":
		return a.sample()
	case "colours":
		a.dress()
	}
	return nil
}

// set sets a setting to a value and keeps it.
func (p *Practice) set(id, value string) error {
	k := settingByID(id)
	s := p.Settings
	if err := k.set(&s, value); err != nil {
		return err
	}
	if _, err := s.Instrument(); err != nil {
		return err
	}
	p.Settings = s
	p.Speaker.SetVolume(s.Volume)
	if id == "minutes" {
		p.Setup.Length = s.length()
	}
	return p.keep(id)
}

// sample plays the open strings as the settings have them.
func (a *app) sample() tea.Cmd {
	on, err := a.Settings.Instrument()
	if err != nil {
		return nil
	}
	f := newFingerboard(on.Tuning, nil)
	return a.play(on.Voices[0], drills.Once(synth.Strum, f.notes())...)
}

// replan makes the session anew if it has not begun, so that it is of the settings as they are now.
func (a *app) replan() {
	if !a.fresh() {
		return
	}
	if err := a.begin(a.called); err != nil {
		a.said = sentence(err.Error())
	}
}

func (s *settingsScreen) view(a *app, b *body) {
	b.say(a.theme.Strong, "Settings")
	b.gap()
	widest := 0
	for _, k := range settings {
		widest = max(widest, ansi.StringWidth(k.title))
	}
	for i, k := range settings {
		mark, style := unmarked, a.theme.Text
		value := k.get(&a.Settings)
		if k.id == "level" && placeTold(a.Settings.Level) != "" {
			value = "where it was found"
		}
		if i == s.at {
			mark, style = marked, a.theme.Strong
			value = "‹ " + value + " ›"
			b.keep(b.next())
		} else {
			value = "  " + value
		}
		b.click(b.next(), 0, b.col, chosenMsg{i})
		b.add(style.Render(mark+k.title) + strings.Repeat(" ", widest-ansi.StringWidth(k.title)+2) + style.Render(value))
	}
	b.gap()
	about := sentence(settings[s.at].about)
	if settings[s.at].id == "level" {
		about += placeTold(a.Settings.Level)
	}
	b.say(a.theme.Quiet, about)
	if last := b.next() - 1; last-b.kept < b.rows-2 {
		b.keep(last) // what is said of the marked line is in sight with it
	}
}

// placeTold says what a place in the course that was found begins with; it is empty for one of the levels.
func placeTold(at course.Place) string {
	if slices.Contains(levelNames(), levelName(at)) {
		return ""
	}
	title := func(id string) string {
		steps := course.BuiltIn()
		if i := slices.IndexFunc(steps, func(s course.Step) bool { return s.ID == id }); i >= 0 {
			return "“" + stepTitle(steps[i]) + "”"
		}
		return atBeginning
	}
	return fmt.Sprintf(" By ear from %s, by eye from %s.", title(at.Ear), title(at.Eye))
}
