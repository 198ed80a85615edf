package page

import (
	"sparetone/drills/practice"
	"sparetone/theory/say"
)

// begin begins today's practice, said first. One that was made and not yet begun is used as it is.
func (w *Walk) begin(said []say.Text) Next {
	if w.Fresh() {
		return w.ask(said)
	}
	return w.practise(w.Called, said)
}

// practise begins a practice, said first.
func (w *Walk) practise(way practice.Way, said []say.Text) Next {
	if err := w.Begin(way); err != nil {
		return refused(err)
	}
	return w.ask(said)
}

// part begins a part of practice, and says which.
func (w *Walk) part(way practice.Way) Next {
	return w.practise(way, []say.Text{say.Sentence("{}.", way.Title)})
}
