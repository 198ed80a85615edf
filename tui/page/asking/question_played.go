package asking

import (
	"slices"

	"sparetone/synth/capture"
	"sparetone/theory/say"
	"sparetone/tui/page"
)

// Heard takes what the microphone heard while a question stands: what comes of it is a word, or an answer that can be taken back before it
// counts.
func (q *Question) Heard(w *page.Walk, sound capture.Sound) page.Next {
	if q.Waits || !q.listensForAnswer(w) {
		return page.Next{}
	}
	came := q.attempt.Follow(w, sound)
	if came.Given != nil && q.tones != nil {
		q.tones.Given = slices.Clone(came.Given)
	}
	if came.Answer != "" {
		return playedAnswer(w, q, came)
	}
	return page.WordOn(came)
}

// ToPlay says what is to be played for an answer; zero where none is listened for.
func (q *Question) ToPlay(w *page.Walk) say.Text {
	if q.Waits || !q.listensForAnswer(w) {
		return say.Text{}
	}
	return q.attempt.LastWord()
}

// listensForAnswer reports whether an answer that is played is listened for.
func (q *Question) listensForAnswer(w *page.Walk) bool {
	if q.attempt == nil {
		if a := w.Playable(q.Asked.Question); a != nil {
			q.attempt = &page.Attempt{Attempt: a}
		}
	}
	return q.attempt != nil && w.Listens()
}

// askToPlay is what is said where an answer can be played: nothing where none can, or nothing listens.
func (q *Question) askToPlay(w *page.Walk) []page.Block {
	if !q.listensForAnswer(w) {
		return nil
	}
	return []page.Block{page.Seen{Text: q.attempt.LastWord(), Tone: page.Quiet}, page.Aloud(q.attempt.Asks())}
}
