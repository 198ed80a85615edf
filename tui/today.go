package tui

import (
	"slices"

	"sparetone/drills/practice"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
)

// today is the opening screen: what the next minutes hold and why, one key to begin, and the ways to the
// rest.
type today struct {
	menu  *menu
	weeks []bool // days practised, the last one today; nil until it was looked up
}

// ahead is one of the ways from the opening screen.
type ahead struct {
	line
	open func(a *app) (screen, tea.Cmd)
}

func (t *today) ways() []ahead {
	practise := func(w practice.Way) func(a *app) (screen, tea.Cmd) {
		return func(a *app) (screen, tea.Cmd) { return a.start(w, t) }
	}
	return []ahead{
		{line{"enter", "begin", ""}, func(a *app) (screen, tea.Cmd) { return a.startToday(t) }},
		{line{"e", "by ear only", ""}, practise(practice.ByEar)},
		{line{"i", "by eye only", "no sound is needed"}, practise(practice.ByEye)},
		{line{"w", "weak spots", "what is mistaken for what"}, func(a *app) (screen, tea.Cmd) { return newWeak(a), nil }},
		{line{"d", "one drill", ""}, func(a *app) (screen, tea.Cmd) { return newDrillList(), nil }},
		{line{"c", "the course", "what comes in when"}, func(a *app) (screen, tea.Cmd) { return newCourse(a), nil }},
		{line{"v", "try things", "any chord, any shape"}, func(a *app) (screen, tea.Cmd) { return openBench(a, t), nil }},
		{line{"s", "settings", ""}, func(a *app) (screen, tea.Cmd) { return newSettings(t), nil }},
	}
}

// startToday begins the practice that the program was called for. A session that was already made and not
// yet begun is used as it is.
func (a *app) startToday(back screen) (screen, tea.Cmd) {
	if a.Fresh() {
		return next(a)
	}
	return a.start(a.Called, back)
}

// start begins a practice. If there is none it says why and stays.
func (a *app) start(w practice.Way, back screen) (screen, tea.Cmd) {
	if err := a.Begin(w); err != nil {
		a.said = practice.Sentence(err.Error())
		return back, nil
	}
	return next(a)
}

func (t *today) keys(a *app) []key.Binding {
	out := []key.Binding{labelled(keyGoOn, "begin")}
	for _, w := range t.ways()[1:] {
		out = append(out, bind(w.text, "", w.key))
	}
	return append(out, named(keyUp, "↑↓", "choose"), named(keyDown, "", "choose"), keyLeave)
}

func (t *today) update(a *app, msg tea.Msg) (screen, tea.Cmd) {
	ways := t.ways()
	if t.menu == nil {
		t.fill()
	}
	if press, ok := msg.(tea.KeyPressMsg); ok && key.Matches(press, keyLeave) {
		return t, a.leave()
	}
	if i, ok := t.menu.update(msg); ok {
		return ways[i].open(a)
	}
	return t, nil
}

func (t *today) fill() {
	t.menu = &menu{}
	for _, w := range t.ways() {
		t.menu.lines = append(t.menu.lines, w.line)
	}
}

func (t *today) view(a *app, b *body) {
	if t.menu == nil {
		t.fill()
	}
	b.say(a.theme.Strong, "Today")
	b.gap()
	if a.Notice != "" {
		b.say(a.theme.Wrong, "✗ "+a.Notice)
		b.gap()
	}
	for _, l := range practice.Outlook(&a.App) {
		b.say(a.theme.Text, l.Screen())
	}
	b.gap()
	if t.weeks == nil {
		t.weeks = practice.Practised(&a.App)
	}
	if slices.Contains(t.weeks, true) {
		b.add(a.theme.Quiet.Render("Last four weeks   ") + weeksLine(a.theme, t.weeks))
		b.gap()
	}
	t.menu.view(a, b)
	if !b.small {
		b.gap()
		b.say(a.theme.Quiet, practice.Cautions)
	}
}
