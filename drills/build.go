package drills

import (
	"slices"
	"strings"

	"sparetone/progress"
	"sparetone/synth"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// build gives the name of a chord and asks for a shape.
type build struct{}

func (build) About() About {
	return About{ID: "build", Title: "Build a chord on the neck", ByHeart: true}
}

func (build) Targets(on *Instrument) []Target { return kindTargets(on) }

func (d build) Ask(r Request) (*Question, error) {
	shapes := r.On.shapesOf(mustKind(r.Target), r.Reach)
	if len(shapes) == 0 {
		return nil, noShape(r.On, mustKind(r.Target))
	}
	c := shapes[r.Rand.IntN(len(shapes))].chord
	known := r.On.shapes(c)
	model, err := known[0].voice(r.On)
	if err != nil {
		return nil, err
	}
	q := &Question{
		Drill:    d.About().ID,
		Target:   r.Target,
		Prompt:   askBuild(c),
		Form:     Frets,
		tuning:   r.On.Tuning,
		answer:   c,
		Voice:    r.voice(),
		expected: shapeChoice(known[0].shape),
	}
	for _, h := range known {
		q.Accepts = append(q.Accepts, spaced(h.shape))
	}
	q.answers = answers[fret.Voicing]{ // heard as the chord
		read: func(text string) (fret.Voicing, error) {
			s, err := readShape(r.On.Tuning, text)
			if err != nil {
				return fret.Voicing{}, err
			}
			return fret.Voice(r.On.Tuning, s, c)
		},
		mark: func(v fret.Voicing) given {
			g := given{id: v.Shape.String(), said: sayShape(v.Shape), result: rightIf(fret.Serves(r.On.Tuning, v.Shape, c))}
			switch _, _, _, holds := fret.Finger(v.Shape); {
			case g.right() && !holds:
				g.note = sayUnheld(c)
			case g.right():
				g.note = sayLeftOut(v)
			case !slices.ContainsFunc(v.Strings, func(s fret.StringTone) bool { return s.Foreign }):
				g.result = progress.Partly
			}
			return g
		},
		explain: func(v fret.Voicing, g given, verdict *Verdict) {
			shown := model
			if g.right() {
				shown = v
				verdict.Short = sayIsNotes(v)
				verdict.say(sayTones(v))
				if !slices.Equal(v.Shape, model.Shape) {
					verdict.say(sayAnotherShape(model.Shape))
				}
			} else if near, ok := nearestKnown(r.On, c, v.Shape); ok && 2*moving(near.Shape, v.Shape) <= len(v.Shape) {
				// What was nearly right is mended; else the easiest shape is worth more.
				shown, verdict.Expected = near, sayShape(near.Shape)
			}
			verdict.Asked = []Sound{played(say.Text{}, shown, synth.Strum)}
			verdict.Shapes = []Reveal{{Caption: sayTitled(c), Voicing: shown}}
			if g.right() {
				return
			}
			lines := append(lacking(v, c), called(v))
			verdict.Short = lines[0]
			if mend := mended(v, shown); !mend.IsZero() {
				verdict.Short = mend
				verdict.say(mend)
			}
			verdict.say(lines...)
			verdict.shows(sayHeardAs(v.Shape, c), v)
			verdict.Other = []Sound{played(labelYours, v, synth.Strum)}
			verdict.against()
		},
	}
	return q.knownByHeart(r), nil
}

// readShape reads a shape that fits a tuning.
func readShape(t *fret.Tuning, text string) (fret.Shape, error) {
	s, err := spokenShape(text)
	if err != nil {
		return nil, errUnread
	}
	return s, t.Check(s)
}

// shapeChoice is a shape as an answer.
func shapeChoice(s fret.Shape) Choice {
	return Choice{ID: s.String(), Said: sayShape(s), Typed: s.String()}
}

// spaced writes a shape with spaces between its frets.
func spaced(s fret.Shape) string {
	var out []string
	for _, f := range s {
		out = append(out, fret.Shape{f}.String())
	}
	return strings.Join(out, " ")
}
