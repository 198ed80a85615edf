// Package home is today's page and the places that it leads to: the first run, the course, weak spots, lessons, settings, the tuner, and the end
// of a practice, which leads back there.
package home

import (
	"sparetone/drills/practice"
	"sparetone/tui/page"
)

// NewWalk is at the beginning of a practice, and knows where places lead.
func NewWalk(p practice.App) *page.Walk {
	return page.NewWalk(p, page.Places{
		Today:  func() page.Place { return &Today{} },
		Ending: func(w *page.Walk, failed error, said []page.Block) page.Place { return newEnding(w, failed, said) },
	})
}

// Start is where a walk begins.
func Start(w *page.Walk) page.Next {
	if w.New {
		return page.Next{To: newWelcome(w)}
	}
	return opening(w)
}
