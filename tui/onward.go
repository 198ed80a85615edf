package tui

import (
	"time"

	tea "charm.land/bubbletea/v2"

	"sparetone/drills/inturn"
	"sparetone/tui/page"
)

// onward asks to be told when a place that has just come goes on by itself; nil if it waits.
func (a *app) onward(next page.Next) tea.Cmd {
	if next.To == nil {
		return nil
	}
	goes := a.page().GoesOn
	if goes == nil {
		return nil
	}
	place, wait := a.place, goes.Seen
	if !a.Setup.Silent {
		wait = max(wait, inturn.Lasts(next.Sounds)+inturn.Rest)
	}
	return tea.Tick(wait, func(time.Time) tea.Msg { return onwardMsg{place} })
}

// goesOn goes on from a place by itself, unless something was pressed there.
func (a *app) goesOn(msg onwardMsg) tea.Cmd {
	if a.place != msg.place || a.page().GoesOn == nil || a.help {
		return nil
	}
	for _, act := range a.page().Acts {
		if act.ID == "go on" {
			return a.apply(act.Do(""))
		}
	}
	return nil
}

// stays has the place wait, if it was to go on by itself.
func (a *app) stays() {
	if goes := a.page().GoesOn; goes != nil {
		goes.Stay()
		a.made = nil
	}
}
