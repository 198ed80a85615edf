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
		if f.MaxLength > 0 {
			a.field.CharLimit = f.MaxLength
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
		if act.HasKey("space") {
			return true
		}
	}
	return false
}

// enter puts a letter or a paste into the field.
func (a *app) enter(msg tea.Msg) {
	a.wrong = say.Text{}
	a.field.update(msg)
}

// fieldActs are what can be done while letters go to the field.
func (a *app) fieldActs(f page.Field) []page.Act {
	out := []page.Act{{Keys: "enter", Does: f.Does}}
	if f.Multiline && a.field.Value() == "" {
		out[0].Does = "that is all"
	}
	completes := len(a.field.MatchedSuggestions())
	if completes > 0 {
		out = append(out, page.Act{Keys: "tab", Does: "complete"})
	}
	esc := page.Act{Keys: "esc", Does: "stop typing"}
	if f.StaysOpen {
		esc.Does = "back"
	}
	out = append(out, esc)
	if completes > 1 {
		out = append(out, arrows.As("another"))
	}
	for _, act := range a.page().Acts {
		if act.HasKey("space") && a.field.Value() == "" {
			out = append(out, act)
		}
	}
	return out
}
