package tui

import (
	tea "charm.land/bubbletea/v2"

	"sparetone/theory/say"
	"sparetone/tui/page"
)

// fieldBlock is the field of the page; zero if it has none.
func (a *app) fieldBlock() page.Field {
	for _, b := range a.page().Blocks {
		if f, ok := b.(page.Field); ok {
			return f
		}
	}
	return page.Field{}
}

// openField lets letters go to the field; anew it is as at first, else it goes on with what was typed in it.
func (a *app) openField(f page.Field, anew bool) {
	if anew {
		a.field = newField(f.Complete)
		if f.Most > 0 {
			a.field.CharLimit = f.Most
		}
		a.field.SetValue(f.Text)
	}
	a.typing = true
	a.field.Focus()
}

// fills reports whether a key without a letter belongs to a field.
func (a *app) fills(key string) bool {
	return key != "ctrl+c" && key != "ctrl+s" && !(key == "space" && a.field.Value() == "" && a.replays())
}

// replays reports whether the page has something to hear again.
func (a *app) replays() bool {
	for _, act := range a.page().Acts {
		if act.Hit("space") {
			return true
		}
	}
	return false
}

// enters takes a key while letters go to the field.
func (a *app) enters(msg tea.KeyPressMsg) tea.Cmd {
	f, text := a.fieldBlock(), a.field.text()
	switch key := msg.String(); {
	case key == "esc" && f.Stays:
		for _, act := range a.page().Acts {
			if act.Hit(key) {
				return a.apply(act.Do(""))
			}
		}
	case key == "esc", key == "enter" && text == "" && f.Empty.IsZero() && !f.Stays:
		a.typing = false
		a.field.Blur()
	case key == "enter" && text == "" && !f.Empty.IsZero():
		a.said = f.Empty
	case key == "enter":
		next := a.page().Take(text)
		if a.typing = next.Wrong || f.Stays; !a.typing {
			a.field.Blur()
		}
		return a.apply(next)
	default:
		a.enter(msg)
	}
	return nil
}

// enter puts a letter or a paste into the field.
func (a *app) enter(msg tea.Msg) {
	a.wrong = say.Text{}
	a.field.update(msg)
}

// fieldView draws the field, or what stands in its place while it is closed.
func (a *app) fieldView(b *body, f page.Field) {
	blocks := f.Else
	if a.typing {
		blocks = f.Before
	}
	for _, block := range blocks {
		a.block(b, block)
	}
	if !a.typing && f.Else != nil {
		return
	}
	if !a.typing {
		b.click(b.next(), 0, b.col, pressed("t"))
	}
	a.field.view(b, f.Label)
	switch {
	case !a.wrong.IsZero():
		b.say(b.theme.Text, a.wrong.Screen())
	case f.Complete != nil:
		a.field.list(b)
	}
}

// fieldActs are what can be done while letters go to the field.
func (a *app) fieldActs(f page.Field) []page.Act {
	out := []page.Act{{Keys: "enter", Does: f.Does}}
	completes := len(a.field.MatchedSuggestions())
	if completes > 0 {
		out = append(out, page.Act{Keys: "tab", Does: "complete"})
	}
	esc := page.Act{Keys: "esc", Does: "stop typing"}
	if f.Stays {
		esc.Does = "back"
	}
	out = append(out, esc)
	if completes > 1 {
		out = append(out, arrows.As("another"))
	}
	for _, act := range a.page().Acts {
		if act.Hit("space") && a.field.Value() == "" {
			out = append(out, act)
		}
	}
	return out
}
