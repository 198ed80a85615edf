package asking

import (
	"sparetone/drills"
	"sparetone/drills/neck"
	"sparetone/drills/played"
	"sparetone/synth/capture"
	"sparetone/theory/say"
	"sparetone/tui/page"
)

// Played is an answer that was heard, before it counts: a right one counts by itself in a moment, another when it is heard once more or
// somebody says so. Until then it can be taken back, and the clocks stand still.
type Played struct {
	q        *Question
	came     played.Came // what was heard
	said     say.Text    // the answer as it was understood
	offWhole say.Text    // how far the instrument is off as a whole; zero where that was said before, or it is in tune
	waits    bool        // something was pressed: even a right answer waits for "go on"
}

// playedAnswer goes to an answer that was heard.
func playedAnswer(w *page.Walk, q *Question, came played.Came) page.Next {
	v, err := q.Asked.Mark(came.Answer)
	if err != nil {
		return page.Next{Said: sayNoAnswer, OnlyInLines: true} // nothing that could be typed
	}
	w.Session.Pause()
	return page.Next{To: &Played{q: q, came: came, said: v.Given, offWhole: w.SayOff()}, Silence: true}
}

// standsStill implements standing: while an answer does not count yet nothing does.
func (p *Played) standsStill() bool { return true }

// Page implements Place.
func (p *Played) Page(w *page.Walk) page.Page {
	stop, stopAsked := stopActs(w, p)
	blocks := []page.Block{page.Seen{Text: p.q.Asked.Prompt, Tone: page.Quiet}, page.Gap{}, page.Sentence{Text: sayHeard(p.said), Tone: page.Strong}}
	if !p.came.Says.IsZero() {
		blocks = append(blocks, page.Sentence{Text: p.came.Says})
	}
	if !p.offWhole.IsZero() {
		blocks = append(blocks, page.Sentence{Text: p.offWhole, Tone: page.Quiet})
	}
	if shape := p.came.Shape; shape != nil {
		blocks = append(blocks, page.Gap{}, page.Shapes{All: []drills.Reveal{{Caption: p.said, Voicing: neck.Unheard(w.Session.On().Tuning, shape)}}, Bare: true, Fingers: w.Fingers}, page.Gap{})
	}
	out := page.Page{Acts: page.Only(
		page.Called("go on", func(string) page.Next { return p.count(w) }).As("it counts"),
		page.Called("undo", func(string) page.Next { return p.takenBack(w) }),
		stop, stopAsked, timeAct(w),
	)}
	if p.came.Right {
		blocks = append(blocks, page.Sentence{Text: countsSoon, Tone: page.Quiet})
	} else {
		blocks = append(blocks, page.Sentence{Text: askPlayed, Tone: page.Quiet})
	}
	if p.came.Right && !p.waits {
		words := sayHeard(p.said).Words() + p.came.Says.Words() + countsSoon.Words() + p.offWhole.Words()
		out.GoesOn = page.GoesAfter(words, func() { p.waits = true })
	}
	out.Blocks, out.HelpBegins = blocks, leadPlayed
	return out
}

// count answers with what was heard. What was amiss in it is said beside the verdict.
func (p *Played) count(w *page.Walk) page.Next {
	next := p.q.giveAnswer(w, p.came.Answer, w.AnswerPlayed)
	w.Session.Resume()
	if !p.came.Amiss.IsZero() && next.Said.IsZero() {
		next.Said, next.Stays = p.came.Amiss, true
	}
	return next
}

// takenBack goes back to the question, as if nothing had been heard.
func (p *Played) takenBack(w *page.Walk) page.Next {
	w.Session.Resume()
	p.q.attempt.Word = say.Text{}
	return page.Next{To: p.q, Said: sayTakenBack}
}

// Heard has the answer count that was heard once more, or another one stand in its place.
func (p *Played) Heard(w *page.Walk, sound capture.Sound) page.Next {
	came := p.q.attempt.Follow(w, sound)
	switch {
	case came.Answer == "":
		return page.WordOn(came)
	case came.Answer == p.came.Answer:
		return p.count(w)
	}
	return playedAnswer(w, p.q, came)
}
