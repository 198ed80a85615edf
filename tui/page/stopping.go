package page

import (
	"sparetone/drills/practice"
	"sparetone/theory/say"
)

// Stopping asks whether a practice is to end, so that a key pressed once too often does not end it. The clocks stand still meanwhile.
type Stopping struct{ back Place }

// stops are the acts that end a practice: one at once, one after asking, which leads back to a place.
func (w *Walk) stops(at Place) (stop, asks Act) {
	stop = called("stop", func(string) Next { return w.finish(nil).hushed() })
	asks = called("stop?", func(string) Next {
		w.Session.Pause()
		return Next{To: &Stopping{back: at}}
	})
	return stop, asks
}

// time is the act that says how much time is left.
func (w *Walk) time() Act {
	return called("time", func(string) Next { return Next{Said: practice.TimeLeft(w.Session)} })
}

// Page implements Place.
func (s *Stopping) Page(w *Walk) Page {
	stop, _ := w.stops(s)
	return Page{
		Blocks: []Block{Sentence{Text: askStopping, Tone: Strong}, Gap{}, Sentence{Text: sayAnswered(len(w.Session.Done()))}},
		Acts: []Act{
			called("go on", func(string) Next { return s.goesBack(w) }).on("enter esc").As("go on practising"),
			stop.As("end it"),
		},
		Ask: askGreeting,
	}
}

// goesBack goes back to where one was. A question that waits for sound goes on waiting.
func (s *Stopping) goesBack(w *Walk) Next {
	_, heard := s.back.(*Played) // before which the clocks stand still
	if q, asks := s.back.(*Question); !heard && (!asks || !q.Held) {
		w.Session.Resume()
	}
	return Next{To: s.back}
}

var askStopping = say.Of("End this practice here?")

// sayAnswered says how many answers are kept already.
func sayAnswered(n int) say.Text {
	if n == 0 {
		return say.Of("Nothing is answered yet.")
	}
	return say.Of("{} kept; the rest comes another time.", say.Count{N: n, One: "answer is", Many: "answers are"})
}
