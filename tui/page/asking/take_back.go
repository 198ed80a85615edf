package asking

import (
	"sparetone/drills/practice"
	"sparetone/tui/page"
)

// takeBackAct takes back the last answer, where that was played and the next one is not given yet. then returns where the act leads.
func takeBackAct(w *page.Walk, then func() page.Next) page.Act {
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
