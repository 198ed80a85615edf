package tui

import (
	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"sparetone/drills"
	"sparetone/drills/practice"
)

// newDrillList is the screen on which one drill is chosen.
func newDrillList() screen {
	l := &drillList{drills: drills.All()}
	for _, d := range l.drills {
		l.lines = append(l.lines, line{text: d.About().Title})
	}
	l.lines = digits(l.lines)
	return l
}

// drillList lists the drills, to practise one of them.
type drillList struct {
	menu
	drills []drills.Drill
}

func (l *drillList) keys(a *app) []key.Binding {
	return l.menu.keys("begin", labelled(keyLeave, "back"))
}

func (l *drillList) update(a *app, msg tea.Msg) (screen, tea.Cmd) {
	if press, ok := msg.(tea.KeyPressMsg); ok && key.Matches(press, keyLeave) {
		return &today{}, nil
	}
	if i, ok := l.menu.update(msg); ok {
		return a.start(practice.OneDrill(l.drills[i]), l)
	}
	return l, nil
}

func (l *drillList) view(a *app, b *body) {
	b.say(a.theme.Strong, "One drill")
	b.gap()
	l.menu.view(a, b)
}
