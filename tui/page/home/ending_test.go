package home

import (
	"testing"

	"sparetone/drills/practice"
	"sparetone/progress"
	"sparetone/tui/page"
	"sparetone/tui/page/player"
)

// The end of a practice says what was taken back, and nothing of it where nothing was.
func TestTheEndSaysWhatWasTakenBack(t *testing.T) {
	p := player.New(t, "swap", "ukulele", 3)
	for back, want := range map[progress.TakenBack]int{{}: 0, {Heard: 1, Counted: 2}: 1} {
		e := &Ending{sum: practice.Summary{TakenBack: back}}
		n := 0
		for _, b := range e.Page(p.Walk).Blocks {
			if s, is := b.(page.Sentence); is && s.Text.Screen() == "Taken back: 1 answer that was heard, 2 answers that had counted." {
				n++
			}
		}
		if n != want {
			t.Errorf("%+v: said %d times", back, n)
		}
	}
	if err := p.Session.TakeBackHeard(); err != nil {
		t.Fatal(err)
	}
	if got := practice.SumUp(&p.App).TakenBack; got != (progress.TakenBack{Heard: 1}) {
		t.Errorf("summed up as %+v", got)
	}
}
