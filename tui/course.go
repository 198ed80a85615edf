package tui

import (
	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"sparetone/drills/course"
	"sparetone/drills/practice"
)

// courseScreen shows the steps of the course, to see what comes in when, or to practise one of them.
type courseScreen struct {
	menu
	steps course.Course
}

func newCourse(a *app) screen {
	c := &courseScreen{steps: a.Setup.Course}
	for _, s := range c.steps {
		c.lines = append(c.lines, line{text: s.Name(), quiet: a.BegunOf(s)})
	}
	return c
}

func (c *courseScreen) keys(a *app) []key.Binding {
	return c.menu.keys("practise this step", labelled(keyLeave, "back"))
}

func (c *courseScreen) update(a *app, msg tea.Msg) (screen, tea.Cmd) {
	if press, ok := msg.(tea.KeyPressMsg); ok && key.Matches(press, keyLeave) {
		return &today{}, nil
	}
	if i, ok := c.menu.update(msg); ok {
		return a.start(practice.OneStep(c.steps[i]), c)
	}
	return c, nil
}

func (c *courseScreen) view(a *app, b *body) {
	b.say(a.theme.Strong, "The course")
	b.gap()
	c.menu.view(a, b)
}
