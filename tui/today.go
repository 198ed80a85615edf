package tui

import (
	"fmt"
	"slices"

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
	practise := func(w way) func(a *app) (screen, tea.Cmd) {
		return func(a *app) (screen, tea.Cmd) { return a.start(w, t) }
	}
	return []ahead{
		{line{"enter", "begin", ""}, func(a *app) (screen, tea.Cmd) { return a.startToday(t) }},
		{line{"e", "by ear only", ""}, practise(wayEar)},
		{line{"i", "by eye only", "no sound is needed"}, practise(wayEye)},
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
	if a.fresh() {
		return next(a)
	}
	return a.start(a.called, back)
}

// start begins a practice. If there is none it says why and stays.
func (a *app) start(w way, back screen) (screen, tea.Cmd) {
	if err := a.begin(w); err != nil {
		a.said = sentence(err.Error())
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
	for _, l := range outlook(a.Practice) {
		b.say(a.theme.Text, l)
	}
	b.gap()
	if t.weeks == nil {
		t.weeks = practised(&a.Practice)
	}
	if slices.Contains(t.weeks, true) {
		b.add(a.theme.Quiet.Render("Last four weeks   ") + weeksLine(a.theme, t.weeks))
		b.gap()
	}
	t.menu.view(a, b)
	if !b.small {
		b.gap()
		b.say(a.theme.Quiet, cautions)
	}
}

// cautions are said before any practice. Loudness: WHO-ITU H.870, 80 dBA for 40 hours a week. Hands:
// common practice, no source.
const cautions = "Start quietly; over headphones, stay where you could still talk. " +
	"If a hand or an ear hurts, stop, and ask somebody who knows if it goes on."

// manyNew is more than anybody would begin in a day: no number to begin with.
const manyNew = 12

// outlook says what the session holds, a sentence a line.
func outlook(p Practice) []string {
	day := p.Session.Today()
	minutes := p.Session.Length().Minutes()
	lines := []string{count(int(minutes+0.5), "minute", "minutes") + " of practice" + only(p.part()) + "."}
	switch {
	case day.Due > 0:
		line := fmt.Sprintf("%s come back", count(day.Due, "thing has", "things have"))
		if day.Weak > 0 {
			line += fmt.Sprintf("; %s weak", count(day.Weak, "is", "are"))
		}
		lines = append(lines, line+".")
		if day.New > 0 {
			lines = append(lines, "If there is time left, something new.")
		}
	case day.New > manyNew:
		lines = append(lines, "Nothing is due yet. There is more to learn than one day has room for.")
	case day.New > 0:
		lines = append(lines, fmt.Sprintf("Nothing is due yet. %s can be begun.", count(day.New, "new thing", "new things")))
	default:
		lines = append(lines, "Nothing is due yet. What has faded most is kept fresh.")
	}
	return lines
}

// only says what part of practice it is, if it is not all.
func only(part string) string {
	if part == "" {
		return ""
	}
	return ": " + part
}

// count writes a number with its noun.
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
