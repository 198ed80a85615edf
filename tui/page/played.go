package page

import (
	"slices"
	"time"

	"sparetone/drills"
	"sparetone/drills/neck"
	"sparetone/drills/played"
	"sparetone/drills/practice"
	"sparetone/synth/capture"
	"sparetone/theory/say"
)

// attempt is something that is being played at a place.
type attempt struct {
	played.Attempt
	word say.Text // what was said of it last; zero for nothing
}

// asks says what is to be played, or what was said of it last.
func (a *attempt) asks() say.Text {
	if !a.word.IsZero() {
		return a.word
	}
	return a.Asks()
}

// takes takes what the microphone heard, and returns what came of it: the first answer, if there is one, and else the last word. It is zero if
// nothing came.
func (a *attempt) takes(w *Walk, sound capture.Sound) (came played.Came) {
	if w.playing != a { // it begins, or goes on after another
		w.playing = a
		w.ListenFor(a.Listens())
	}
	for _, h := range w.Hear(sound) {
		c := a.took(h)
		if c.Anew {
			w.ListenFor(a.Listens())
		}
		if !c.Says.IsZero() || c.Given != nil || c.Answer != "" {
			came = c
		}
		if c.Answer != "" {
			break
		}
	}
	return came
}

// took takes one thing that was heard, and keeps the word on it, which goes with what is asked where that has to stay in sight.
func (a *attempt) took(h played.Heard) played.Came {
	c := a.Take(h)
	switch {
	case c.Again:
		c.Says = say.Of("{} {}", c.Says, a.Asks())
	case c.Seen:
		c.Says = say.Of("{} {}", a.Asks(), c.Says)
	}
	if !c.Says.IsZero() {
		a.word = c.Says
	}
	return c
}

// heard takes what the microphone heard while a question stands: what comes of it is a word, or an answer that can be taken back before it
// counts.
func (q *Question) heard(w *Walk, sound capture.Sound) Next {
	if q.Held || !q.tries(w) {
		return Next{}
	}
	came := q.attempt.takes(w, sound)
	if came.Given != nil && q.Tones != nil {
		q.Tones.Given = slices.Clone(came.Given)
	}
	if came.Answer != "" {
		return w.playedAnswer(q, came)
	}
	return word(came)
}

// word is a word on what was heard, where one stays. The page shows it; while strings are plucked nothing is said aloud into them.
func word(came played.Came) Next {
	if came.Seen {
		return Next{}
	}
	return Next{Said: came.Says, Aloud: true}
}

// tries reports whether an answer that is played is listened for.
func (q *Question) tries(w *Walk) bool {
	if q.attempt == nil {
		if a := w.Playable(q.Asked.Question); a != nil {
			q.attempt = &attempt{Attempt: a}
		}
	}
	return q.attempt != nil && w.Listens()
}

// toPlay is what is said where an answer can be played: nothing where none can, or nothing listens.
func (q *Question) toPlay(w *Walk) []Block {
	if !q.tries(w) {
		return nil
	}
	return []Block{Seen{Text: q.attempt.asks(), Tone: Quiet}, Aloud(q.attempt.Asks())}
}

// Played is an answer that was heard, before it counts: a right one counts by itself in a moment, another when it is heard once more or
// somebody says so. Until then it can be taken back, and the clocks stand still.
type Played struct {
	q    *Question
	came played.Came
	said say.Text // the answer as it was understood
	off  say.Text // that the instrument is off as a whole; zero where there is nothing to say
	wait bool     // it does not count by itself
}

// playedAnswer goes to an answer that was heard.
func (w *Walk) playedAnswer(q *Question, came played.Came) Next {
	v, err := q.Asked.Mark(came.Answer)
	if err != nil {
		return Next{Said: sayNoAnswer, Aloud: true} // nothing that could be typed
	}
	w.Session.Pause()
	return Next{To: &Played{q: q, came: came, said: v.Given, off: w.SayOff()}, Hush: true}
}

// Page implements Place.
func (p *Played) Page(w *Walk) Page {
	stop, stopAsked := w.stops(p)
	blocks := []Block{Seen{Text: p.q.Asked.Prompt, Tone: Quiet}, Gap{}, Sentence{Text: sayHeard(p.said), Tone: Strong}}
	if !p.came.Says.IsZero() {
		blocks = append(blocks, Sentence{Text: p.came.Says})
	}
	if !p.off.IsZero() {
		blocks = append(blocks, Sentence{Text: p.off, Tone: Quiet})
	}
	if shape := p.came.Shape; shape != nil {
		blocks = append(blocks, Gap{}, Shapes{All: []drills.Reveal{{Caption: p.said, Voicing: neck.Unheard(w.Session.On().Tuning, shape)}}, Bare: true, Fingers: w.Fingers}, Gap{})
	}
	page := Page{Acts: only(
		called("go on", func(string) Next { return p.counts(w) }).As("it counts"),
		called("undo", func(string) Next { return p.takenBack(w) }),
		stop, stopAsked, w.time(),
	)}
	if p.came.Right {
		blocks = append(blocks, Sentence{Text: countsSoon, Tone: Quiet})
	} else {
		blocks = append(blocks, Sentence{Text: askPlayed, Tone: Quiet})
	}
	if p.came.Right && !p.wait {
		words := sayHeard(p.said).Words() + p.came.Says.Words() + countsSoon.Words() + p.off.Words()
		page.Goes = &Goes{Seen: seenWord * time.Duration(words), Aloud: spokenWord * time.Duration(words), Stay: func() { p.wait = true }}
	}
	page.Blocks, page.Lead = blocks, leadPlayed
	return page
}

// counts answers with what was heard. What was amiss in it is said beside the verdict.
func (p *Played) counts(w *Walk) Next {
	next := p.q.marked(w, p.came.Answer, w.AnswerPlayed)
	w.Session.Resume()
	if !p.came.Amiss.IsZero() && next.Said.IsZero() {
		next.Said, next.Stays = p.came.Amiss, true
	}
	return next
}

// takenBack goes back to the question, as if nothing had been heard.
func (p *Played) takenBack(w *Walk) Next {
	w.Session.Resume()
	p.q.attempt.word = say.Text{}
	return Next{To: p.q, Said: sayTakenBack}
}

// takesBack is the act that takes the last answer back, if that was played and the next one is not given yet. then says where that leads.
func (w *Walk) takesBack(then func() Next) Act {
	return called("take back", func(string) Next {
		err := w.TakeBack()
		next := then()
		if next.Said = sayGone; err != nil {
			next.Said = practice.SentenceOf(err)
		}
		next.Stays = true
		return next
	}).where(w.Session.TakesBack())
}

// heard has the answer count that was heard once more, or another one stand in its place.
func (p *Played) heard(w *Walk, sound capture.Sound) Next {
	came := p.q.attempt.takes(w, sound)
	switch {
	case came.Answer == "":
		return word(came)
	case came.Answer == p.came.Answer:
		return p.counts(w)
	}
	return w.playedAnswer(p.q, came)
}

// toPlay is an attempt at the shape that shows, after a meeting; nil where none shows, or nothing listens.
func (m *Meeting) toPlay(w *Walk) *attempt {
	shape := m.Looks()[m.at].Shape
	if shape == nil || shape.Chord.Kind == nil || !w.Listens() {
		return nil
	}
	if m.attempt == nil || m.tried != m.at {
		m.attempt, m.tried = &attempt{Attempt: played.NewHeld(*shape, w.HeardA4())}, m.at
	}
	return m.attempt
}

// heard says what was heard of the shape that shows. It is no answer.
func (m *Meeting) heard(w *Walk, sound capture.Sound) Next {
	a := m.toPlay(w)
	if a == nil {
		return Next{}
	}
	came := a.takes(w, sound)
	if !came.Amiss.IsZero() {
		came.Says, a.word = came.Amiss, came.Amiss
	}
	return word(came)
}

// along begins to play the song through, chord after chord, or ends it.
func (s *Song) along(w *Walk, id string, inTime bool) Act {
	act := called(id, func(string) Next {
		if s.playsAlong(inTime) {
			s.through = nil
			return Next{Said: noMoreAlong}
		}
		through, err := s.work.NewAlong(inTime)
		if err != nil {
			return refused(err)
		}
		s.work.Stop()
		s.through, s.attempt = through, &attempt{Attempt: through}
		s.mark, s.read = through.Place(), true
		return Next{Said: through.Asks(), Aloud: true, Hush: true, Anew: true}
	})
	if s.playsAlong(inTime) {
		act.Does = "no more " + act.Does
	}
	return act.off(!w.Listens(), listenFirst)
}

func (s *Song) playsAlong(inTime bool) bool { return s.through != nil && s.through.InTime == inTime }

// heard follows the song as the student plays it through.
func (s *Song) heard(w *Walk, sound capture.Sound) Next {
	if s.through == nil {
		return Next{}
	}
	came := s.attempt.takes(w, sound)
	if passed := s.through.Passed(float64(len(sound.Samples)) / sound.Rate); !passed.Says.IsZero() {
		came = passed
	}
	if !came.Says.IsZero() {
		s.attempt.word = came.Says
	}
	s.mark = s.through.Place()
	if came.Answer != "" {
		s.through = nil
		return Next{Said: came.Says, Stays: true}
	}
	return word(came)
}
