package asking

import (
	"sparetone/drills/practice"
	"sparetone/tui/page"
)

// takesBack is the act that takes the last answer back, if that was played and the next one is not given yet. then says where that leads.
func takesBack(w *page.Walk, then func() page.Next) page.Act {
	return page.Called("take back", func(string) page.Next {
		err := w.TakeBack()
		next := then()
		if next.Said = sayGone; err != nil {
			next.Said = practice.SentenceOf(err)
		}
		next.Stays = true
		return next
	}).If(w.Session.TakesBack())
}
