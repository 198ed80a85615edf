package asking

import (
	"sparetone/drills/practice/session"
	"sparetone/tui/page"
)

// Stopping asks whether a practice is to end, so that a key pressed once too often does not end it. The clocks stand still meanwhile.
type Stopping struct{ back page.Place }

// standing is a place that may have stopped the clocks.
type standing interface{ standsStill() bool }

// stopActs returns the acts that end a practice: stop at once, asks on a page that leads back to at.
func stopActs(w *page.Walk, at page.Place) (stop, asks page.Act) {
	stop = page.Called("stop", func(string) page.Next { return w.Finish(nil).InSilence() })
	asks = page.Called("stop?", func(string) page.Next {
		w.Session.Pause()
		return page.Next{To: &Stopping{back: at}}
	})
	return stop, asks
}

// timeAct is the act that says how much time is left.
func timeAct(w *page.Walk) page.Act {
	return page.Called("time", func(string) page.Next { return page.Next{Said: session.TimeLeft(w.Session)} })
}

// Page implements Place.
func (s *Stopping) Page(w *page.Walk) page.Page {
	stop, _ := stopActs(w, s)
	return page.Page{
		Blocks: []page.Block{page.Sentence{Text: askStopping, Tone: page.Strong}, page.Gap{}, page.Sentence{Text: sayAnswered(len(w.Session.Done()))}},
		Acts: []page.Act{
			page.Called("go on", func(string) page.Next { return s.goesBack(w) }).On("enter esc").As("go on practising"),
			stop.As("end it"),
		},
		Ask: page.AskGoOn,
	}
}

// goesBack goes back to where one was. Where the clocks stood still they go on doing so.
func (s *Stopping) goesBack(w *page.Walk) page.Next {
	if at, stands := s.back.(standing); !stands || !at.standsStill() {
		w.Session.Resume()
	}
	return page.Next{To: s.back}
}
