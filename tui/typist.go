package tui

import (
	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"sparetone/drills/practice"
)

// typist enters an answer by typing it, with completion.
type typist struct{ field field }

// keyResume goes on typing.
var keyResume = bind("type it", "t", "t", "enter")

func newTypist(q *practice.Asked) *typist { return &typist{newField(q.Complete)} }

func (t *typist) typing() bool   { return t.field.Focused() }
func (t *typist) pictures() bool { return false }

func (t *typist) keys() []key.Binding {
	if !t.typing() {
		return []key.Binding{keyResume}
	}
	return t.field.keys("answer")
}

func (t *typist) update(a *app, msg tea.Msg) (string, bool, tea.Cmd) {
	if press, ok := msg.(tea.KeyPressMsg); ok {
		switch {
		case !t.typing():
			if key.Matches(press, keyResume) {
				t.field.Focus()
			}
			return "", false, nil
		case key.Matches(press, keyEscape):
			t.field.Blur()
			return "", false, nil
		case key.Matches(press, keyGoOn):
			text := t.field.text()
			if text == "" {
				a.said = "Type an answer first."
			}
			return text, text != "", nil
		}
	}
	t.field.update(msg)
	return "", false, nil
}

func (t *typist) view(a *app, b *body) {
	if !t.typing() {
		b.click(b.next(), 0, b.col, pressed("t"))
	}
	t.field.view(a, b, "Your answer: ")
	t.field.list(a, b)
}
