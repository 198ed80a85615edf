// Package home is today's page and the places that it leads to: the first run, the course, weak spots, lessons, settings, the tuner, and the end
// of a practice, which leads back there.
package home

import (
	"sparetone/drills/practice"
	"sparetone/tui/page"
)

// NewWalk returns a walk of a practice that knows all places.
func NewWalk(p practice.App) *page.Walk {
	return page.NewWalk(p, page.Places{
		Today:  func() page.Place { return &Today{} },
		Ending: func(w *page.Walk, failed error, said []page.Block) page.Place { return newEnding(w, failed, said) },
	})
}

// Start goes to the first place of a walk: the first run of somebody new, else today's page or the first question.
func Start(w *page.Walk) page.Next {
	if w.New {
		return page.Next{To: newWelcome(w)}
	}
	return opening(w)
}
