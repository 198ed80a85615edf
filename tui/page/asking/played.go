package asking

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/neck"
	"sparetone/drills/played"
	"sparetone/synth/capture"
	"sparetone/theory/say"
	"sparetone/tui/page"
)

// Played is an answer that was heard, before it counts: a right one counts by itself in a moment, another when it is heard once more or
// somebody says so. Until then it can be taken back, and the clocks stand still. What one stroke was misheard as the next is misheard as too: so a shape
// counts by being heard again only where its strings were heard one by one (played.ShapeAttempt sees to that). What was taken back once counts only when
// somebody says so, right or not.
type Played struct {
	q        *Question
	came     played.Came // what was heard
	said     say.Text    // the answer as it was understood
	offWhole say.Text    // how far the instrument is off as a whole; zero where that was said before, or it is in tune
	waits    bool        // something was pressed: even a right answer waits for "go on"
	denied   bool        // the same was taken back before
}

// playedAnswer goes to an answer that was heard.
func playedAnswer(w *page.Walk, q *Question, came played.Came) page.Next {
	v, err := q.Asked.Mark(came.Answer)
	if err != nil {
		return page.Next{Said: sayNoAnswer, OnlyInLines: true} // nothing that could be typed
	}
	w.Session.Pause()
	if q.attempt != nil {
		q.attempt.Word = say.Text{} // of what is heard from now on
	}
	return page.Next{To: &Played{q: q, came: came, said: v.Given, offWhole: w.SayOff(), denied: slices.Contains(q.denied, came.Answer)}, Silence: true}
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
	countsByItself := p.came.Right && !p.denied
	blocks = append(blocks, page.Sentence{Text: p.whatNow(), Tone: page.Quiet})
	blocks = append(blocks, p.plays()...)
	if countsByItself && !p.waits {
		words := sayHeard(p.said).Words() + p.came.Says.Words() + countsSoon.Words() + p.offWhole.Words()
		out.GoesOn = page.GoesAfter(words, func() { p.waits = true })
	}
	out.Blocks, out.HelpBegins = blocks, leadPlayed
	return out
}

// whatNow says what has the answer count.
func (p *Played) whatNow() say.Text {
	switch {
	case p.denied:
		return askDenied
	case p.came.Right:
		return countsSoon
	case p.came.Shape != nil && !p.came.InTurn:
		return askStruck
	}
	return askPlayed
}

// plays is the word on what was heard since, and until there is one which strings are to be plucked in turn, where that is how it counts.
func (p *Played) plays() []page.Block {
	switch {
	case p.q.attempt == nil || p.came.Right:
		return nil
	case !p.q.attempt.Word.IsZero():
		return []page.Block{page.Seen{Text: p.q.attempt.Word}}
	case p.came.InTurn && !p.denied:
		return []page.Block{page.Sentence{Text: p.q.attempt.Asks(), Tone: page.Quiet}}
	}
	return nil
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
	p.q.denied = append(p.q.denied, p.came.Answer)
	_ = w.Session.TakeBackHeard() // if the file fails it holds on to this, and the next answer says so
	return page.Next{To: p.q, Said: sayTakenBack}
}

// Heard has the answer count that was heard once more and was never taken back, or another one stand in its place.
func (p *Played) Heard(w *page.Walk, sound capture.Sound) page.Next {
	came := p.q.attempt.Follow(w, sound)
	switch {
	case came.Answer == "":
		return page.WordOn(came)
	case came.Answer == p.came.Answer && !p.denied:
		return p.count(w)
	}
	return playedAnswer(w, p.q, came)
}
