package tui

import (
	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"sparetone/drills"
	"sparetone/drills/course"
)

// courseScreen shows the steps of the course, to see what comes in when, or to practise one of them.
type courseScreen struct {
	menu
	steps course.Course
}

func newCourse(a *app) screen {
	c := &courseScreen{steps: a.Setup.Course}
	for _, s := range c.steps {
		c.lines = append(c.lines, line{text: stepTitle(s), quiet: a.begunOf(s)})
	}
	return c
}

// begunOf says how far a step of the course is begun; empty if it is new.
func (p *Practice) begunOf(s course.Step) string {
	met := 0
	for _, t := range s.Asks {
		item := drills.ItemID(s.Drill, t, p.Session.On().Name())
		if _, known, err := p.file().ComesBack(item); known && err == nil {
			met++
		}
	}
	switch met {
	case 0:
		return ""
	case len(s.Asks):
		return "begun"
	}
	return "partly begun"
}

func (c *courseScreen) keys(a *app) []key.Binding {
	return c.menu.keys("practise this step", labelled(keyLeave, "back"))
}

func (c *courseScreen) update(a *app, msg tea.Msg) (screen, tea.Cmd) {
	if press, ok := msg.(tea.KeyPressMsg); ok && key.Matches(press, keyLeave) {
		return &today{}, nil
	}
	if i, ok := c.menu.update(msg); ok {
		return a.start(wayStep(c.steps[i]), c)
	}
	return c, nil
}

func (c *courseScreen) view(a *app, b *body) {
	b.say(a.theme.Strong, "The course")
	b.gap()
	c.menu.view(a, b)
}

// stepTitle is what a step is called.
func stepTitle(s course.Step) string {
	if s.Title == "" {
		return s.ID
	}
	return s.Title
}

// wayStep is practising one step of the course.
func wayStep(s course.Step) way {
	s.RestsOn = nil
	return way{title: stepTitle(s), course: course.Course{s}}
}
