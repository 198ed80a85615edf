package page

import "sparetone/drills"

// Picture is what a question shows beside its prompt.
func (w *Walk) Picture(q *drills.Question) []Block {
	switch {
	case q.Shown != nil:
		return []Block{Neck{Voicing: *q.Shown, Named: q.Named, Fingers: w.Fingers}, Gap{}}
	case len(q.Sounds) > 0:
		return []Block{Strings{q.Sounds, len(w.Session.On().Tuning.Strings)}, Gap{}}
	}
	return nil
}
