package page

import "sparetone/drills"

// picture is what a question shows beside its prompt.
func picture(q *drills.Question, on *drills.Instrument) []Block {
	switch {
	case q.Shown != nil:
		return []Block{Neck{Voicing: *q.Shown, Named: q.Named}, Gap{}}
	case len(q.Sounds) > 0:
		return []Block{Strings{q.Sounds, len(on.Tuning.Strings)}, Gap{}}
	}
	return nil
}
