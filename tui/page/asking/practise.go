package asking

import (
	"sparetone/drills/practice"
	"sparetone/theory/say"
	"sparetone/tui/page"
)

// Begin begins today's practice, said first. One that was made and not yet begun is used as it is.
func Begin(w *page.Walk, said []say.Text) page.Next {
	if w.Fresh() {
		return ask(w, said)
	}
	return Practise(w, w.Called, said)
}

// Practise begins a practice, said first.
func Practise(w *page.Walk, way practice.Way, said []say.Text) page.Next {
	if err := w.Begin(way); err != nil {
		return page.Refused(err)
	}
	w.From = nil
	return ask(w, said)
}

// PractisePart begins a part of practice, and says which.
func PractisePart(w *page.Walk, way practice.Way) page.Next {
	return Practise(w, way, []say.Text{say.Sentence("{}.", way.Title)})
}
