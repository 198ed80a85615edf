package asking

import (
	"sparetone/drills/practice"
	"sparetone/theory/say"
	"sparetone/tui/page"
)

// Begin goes to the first question of today's practice, and says said before it in lines. A session that was made and not yet begun is used.
func Begin(w *page.Walk, said []say.Text) page.Next {
	if w.Fresh() {
		return ask(w, said)
	}
	return Practise(w, w.Called, said)
}

// Practise makes a session of a way and goes to its first question. It leads back to today's page.
func Practise(w *page.Walk, way practice.Way, said []say.Text) page.Next {
	if err := w.Begin(way); err != nil {
		return page.Refused(err)
	}
	w.BegunFrom = nil
	return ask(w, said)
}

// PractisePart is Practise, with the title of the way said first.
func PractisePart(w *page.Walk, way practice.Way) page.Next {
	return Practise(w, way, []say.Text{say.Sentence("{}.", way.Title)})
}
