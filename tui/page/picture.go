package page

import "sparetone/drills"

// picture is what a question shows beside its prompt.
func (w *Walk) picture(q *drills.Question) []Block {
	switch {
	case q.Shown != nil:
		return []Block{Neck{Voicing: *q.Shown, Named: q.Named, Fingers: w.Fingers}, Gap{}}
	case len(q.Sounds) > 0:
		return []Block{Strings{q.Sounds, len(w.Session.On().Tuning.Strings)}, Gap{}}
	}
	return nil
}

// shownIn is the shape that a question shows, if it shows one that no finger is to be moved in.
func shownIn(q *drills.Question) []drills.Reveal {
	if q.Shown == nil || q.Form == drills.Frets {
		return nil
	}
	return []drills.Reveal{{Voicing: *q.Shown}}
}
