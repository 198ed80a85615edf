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
	w.song = nil
	return w.ask(said)
}

// only is the act that begins a part of practice, which stays as chosen; and where it is chosen already, all of it again.
func (w *Walk) only(id string, way practice.Way) Act {
	if w.Settings.Part == id {
		all := called(id, func(string) Next {
			if err := w.Set("part", practice.AllParts); err != nil {
				return refused(err)
			}
			return w.practise(w.Called, []say.Text{say.Of("By ear and eye.")})
		}).As("by ear and eye again")
		all.Says = ", for practice by ear and eye again"
		return all
	}
	return called(id, func(string) Next {
		next := w.part(way)
		if next.To != nil {
			if err := w.Set("part", id); err != nil {
				next.Said = practice.SentenceOf(err)
			}
		}
		return next
	})
}

// part begins a part of practice, and says which.
func (w *Walk) part(way practice.Way) Next {
	return w.practise(way, []say.Text{say.Sentence("{}.", way.Title)})
}
