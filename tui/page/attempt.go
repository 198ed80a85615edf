package page

import (
	"sparetone/drills/played"
	"sparetone/synth/capture"
	"sparetone/theory/say"
)

// Attempt is an attempt to play what a place asks for, with the last word on it.
type Attempt struct {
	played.Attempt
	Word say.Text // what was said last of what was heard; zero if nothing was
}

// LastWord returns Word, and what is to be played where that is zero.
func (a *Attempt) LastWord() say.Text {
	if !a.Word.IsZero() {
		return a.Word
	}
	return a.Asks()
}

// Follow takes what the microphone heard, and returns what came of it: the first answer, if there is one, and else the last word. It is zero if
// nothing came.
func (a *Attempt) Follow(w *Walk, sound capture.Sound) (came played.Came) {
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
func (a *Attempt) took(h played.Heard) played.Came {
	c := a.Take(h)
	switch {
	case c.Again:
		c.Says = say.Of("{} {}", c.Says, a.Asks())
	case c.Seen:
		c.Says = say.Of("{} {}", a.Asks(), c.Says)
	}
	if !c.Says.IsZero() {
		a.Word = c.Says
	}
	return c
}

// WordOn is a word on what was heard, where one stays. The page shows it; while strings are plucked nothing is said aloud into them.
func WordOn(came played.Came) Next {
	if came.Seen {
		return Next{}
	}
	return Next{Said: came.Says, OnlyInLines: true}
}
