package drills

import (
	"fmt"
	"slices"
	"strings"

	"sparetone/progress"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// build gives the name of a chord and asks for a shape.
type build struct{}

func (build) About() About { return About{ID: "build", Title: "Build a chord on the neck"} }

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
		Prompt:   fmt.Sprintf("Build %s.", titled(c)),
		Form:     Frets,
		tuning:   r.On.Tuning,
		answer:   c,
		Voice:    drawVoice(r.On, r.Rand),
		expected: shapeChoice(known[0].shape),
	}
	for _, h := range known {
		q.Accepts = append(q.Accepts, spaced(h.shape))
	}
	q.read = func(text string) (given, error) {
		s, err := readShape(r.On.Tuning, text)
		if err != nil {
			return given{}, err
		}
		g := given{id: s.String(), label: s.String(), result: rightIf(fret.Serves(r.On.Tuning, s, c))}
		v, err := fret.Voice(r.On.Tuning, s, c)
		if err != nil {
			return given{}, err
		}
		switch _, _, _, holds := fret.Finger(s); {
		case g.right() && !holds:
			g.note = unheld(c)
		case g.right() && leftOut(v) != "":
			g.note = leftOut(v)
		case !g.right() && !slices.ContainsFunc(v.Strings, func(s fret.StringTone) bool { return s.Foreign }):
			g.result = progress.Partly
		}
		return g, nil
	}
	q.explain = func(g given, verdict *Verdict) {
		s, err := fret.ParseShape(g.id)
		if err != nil {
			return
		}
		v, err := fret.Voice(r.On.Tuning, s, c)
		if err != nil {
			return
		}
		verdict.Asked = []Sound{played("", model, synth.Strum, nil)}
		verdict.Shapes = []Reveal{{Caption: titled(c), Voicing: model}}
		if g.right() {
			verdict.Shapes[0].Voicing = v
			verdict.Asked = []Sound{played("", v, synth.Strum, nil)}
			verdict.say(tones(v))
			if !slices.Equal(s, model.Shape) {
				verdict.say(fmt.Sprintf("Another shape, easy to hold, is %s.", model.Shape))
			}
			return
		}
		// What was nearly right is mended; else the easiest shape is worth more.
		if near, ok := nearestKnown(r.On, c, s); ok && 2*moving(near.Shape, s) <= len(s) {
			verdict.Shapes[0].Voicing = near
			verdict.Expected = near.Shape.String()
			verdict.Asked = []Sound{played("", near, synth.Strum, nil)}
		}
		verdict.say(lacking(v, c)...)
		verdict.say(called(v))
		verdict.Shapes = append(verdict.Shapes, Reveal{Caption: "Your shape, heard as " + c.String(), Voicing: v})
		verdict.Other = []Sound{played("", v, synth.Strum, nil)}
	}
	return q, nil
}

// unheld says of a right shape that it is none for a hand.
func unheld(c theory.Chord) string { return fmt.Sprintf("It is %s, though no hand can hold it.", c) }

// readShape reads a shape that fits a tuning.
func readShape(t *fret.Tuning, text string) (fret.Shape, error) {
	s, err := fret.ParseShape(text)
	if err != nil {
		return nil, errUnread
	}
	return s, t.Check(s)
}

// shapeChoice is a shape as an answer.
func shapeChoice(s fret.Shape) Choice {
	return Choice{ID: s.String(), Label: s.String(), Spoken: spaced(s), Typed: s.String()}
}

// spaced writes a shape with spaces between its frets.
func spaced(s fret.Shape) string {
	var out []string
	for _, f := range s {
		out = append(out, fret.Shape{f}.String())
	}
	return strings.Join(out, " ")
}
