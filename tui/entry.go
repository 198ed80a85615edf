package tui

import (
	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"sparetone/drills"
	"sparetone/drills/practice"
)

// entry is how an answer is entered. It owns its state and its view, and makes the text that is marked:
// an answer is always a text that could have been typed.
type entry interface {
	keys() []key.Binding
	// update takes a key, a click or a paste. It returns the answer once there is one.
	update(a *app, msg tea.Msg) (answer string, given bool, cmd tea.Cmd)
	view(a *app, b *body)
	typing() bool   // letters are being typed
	pictures() bool // it draws the neck itself
}

// newEntry returns the way to enter an answer to a question: the student's, and else the question's own.
func newEntry(a *app, q *practice.Asked) entry {
	make, ok := entries[q.Form]
	if a.Settings.Typing || !ok {
		return newTypist(q)
	}
	return make(a, q)
}

// entries says how an answer of each form is entered. What is not here is typed.
var entries = map[drills.Form]func(a *app, q *practice.Asked) entry{
	drills.Choose: func(a *app, q *practice.Asked) entry { return &chooser{choices: q.Choices} },
	drills.Tones:  func(a *app, q *practice.Asked) entry { return newDegrees(q) },
	drills.Frets:  func(a *app, q *practice.Asked) entry { return newFingers(a, q) },
}
