package tui

import (
	tea "charm.land/bubbletea/v2"

	"sparetone/theory/say"
	"sparetone/tui/page"
	"sparetone/tui/page/home"
)

// apply does what comes of an act.
func (a *app) apply(next page.Next) tea.Cmd {
	if next.Silence {
		a.hush()
	}
	a.made = nil
	if next.To != nil && next.To != a.place {
		a.goTo(next.To)
	} else if next.NewPage {
		a.top()
	}
	switch {
	case next.Said.IsZero() || next.OnlyInLines:
	case next.Stays:
		a.note = next.Said
		a.bottom()
	case next.Wrong:
		a.wrong = next.Said
	default:
		a.said = next.Said
	}
	a.left, a.still = a.Settings.Left, a.Settings.Still
	if a.Settings.Colours != a.coloured {
		a.applyTheme()
	}
	if len(next.ToldInLines) > 0 {
		a.bottom() // what it told stands at the end of the page
	}
	if next.Ends {
		a.away = true
		return tea.Quit
	}
	if next.OpensField {
		a.openField(a.fieldBlock(), true)
	}
	if next.Song != nil {
		return tea.Batch(a.playSong(next.Song), a.move())
	}
	onward := a.onward(next)
	if len(next.Sounds) == 0 {
		return tea.Batch(a.move(), onward)
	}
	return tea.Batch(a.play(next.Voice, next.Sounds), onward)
}

// goTo shows a place from its first line.
func (a *app) goTo(place page.Place) {
	if _, seen := a.place.(*home.Today); seen && !a.Cautioned {
		a.Caution() // they stood there
	}
	a.place, a.note, a.wrong, a.typing = place, say.Text{}, say.Text{}, false
	a.top()
	if f := a.fieldBlock(); f.Open {
		a.openField(f, true)
	}
}

// bottom shows a screen to its last line, where something was said.
func (a *app) bottom() { a.scroll, a.turned = 1<<16, true }

// top shows what is new on a screen from its first line.
func (a *app) top() { a.scroll, a.turned, a.moved = 0, false, false }
