package lines

import (
	"errors"
	"strings"

	"sparetone/drills"
	"sparetone/drills/course"
	"sparetone/theory/say"
	"sparetone/tui/draw"
)

// findOut takes the student through a placement. It returns nil if there is none, or if it was stopped.
func (t *plain) findOut() (*course.Placement, error) {
	p, err := t.NewPlacement()
	if err != nil {
		t.wrong(err)
		return nil, nil
	}
	t.say(helpPlacing(t.Hears()))
	for {
		p.SetSilent(!t.Hears())
		q := p.Next()
		if q == nil {
			t.Speaker.Stop()
			return p, nil
		}
		switch err := t.place(p, q); {
		case errors.Is(err, errStopped):
			return nil, nil
		case err != nil:
			return nil, err
		}
	}
}

// place puts one question of a placement until it is answered.
func (t *plain) place(p *course.Placement, q *drills.Question) error {
	t.tell(say.Of("Finding out, question {}. {}", say.Number(p.Asked()+1), q.Prompt))
	if q.Shown != nil {
		t.tell(draw.Neck{Voicing: *q.Shown, Named: q.Named}.Words()...)
	}
	for i, c := range q.Choices {
		t.tell(numbered(i, c.Said))
	}
	if len(q.Sounds) > 0 {
		t.play(q.Voice, q.Sounds)
	}
	for {
		line, err := t.next(helpPlacing(len(q.Sounds) > 0))
		switch {
		case err != nil:
			return err
		case len(q.Sounds) > 0 && !t.Hears():
			t.say("There is no sound any more, so this question is put aside.")
			return nil
		case line == "" || line == "0" || strings.EqualFold(line, drills.Unknown):
			p.Unknown()
			return nil
		case strings.EqualFold(line, "again"):
			t.play(q.Voice, q.Sounds)
			continue
		}
		if err = p.Answer(line); err == nil {
			return nil
		}
		t.wrong(err)
	}
}
