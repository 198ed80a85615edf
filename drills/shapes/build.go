package shapes

import (
	"slices"
	"strings"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/neck"
	"sparetone/drills/wording"
	"sparetone/progress"
	"sparetone/synth"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Build gives the name of a chord and asks for a shape.
type Build struct{}

func (Build) About() drills.About {
	return drills.About{ID: "build", Title: "Build a chord on the neck", ByHeart: true}
}

func (Build) Targets(on *neck.Instrument) []drills.Target { return drills.KindTargets(on) }

func (Build) Rungs(string) []drills.Rung { return drills.ShapeRungs }

func (d Build) Ask(r drills.Request) (*drills.Question, error) {
	shapes := shapesOf(r)
	if len(shapes) == 0 {
		return nil, neck.NoShape(r.On, chord.Kind(r.Target))
	}
	c := shapes[r.Rand.IntN(len(shapes))].Chord
	known := r.On.Shapes(c)
	if chord.IsTurned(c) {
		known = r.On.ShapesOver(c)
	}
	model, err := known[0].Voice(r.On)
	if err != nil {
		return nil, err
	}
	q := &drills.Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: askBuild(c),
		Form:   drills.Frets,
		Tuning: r.On.Tuning,
		Answer: c,
		Voice:  r.Voice(),
	}
	q.Expect(shapeChoice(known[0].Shape))
	for _, h := range known {
		q.Accepts = append(q.Accepts, spaced(h.Shape))
	}
	q.Answers = drills.Answers[fret.Voicing]{ // heard as the chord
		Read: func(text string) (fret.Voicing, error) {
			s, err := readShape(r.On.Tuning, text)
			if err != nil {
				return fret.Voicing{}, err
			}
			return fret.Voice(r.On.Tuning, s, c)
		},
		Mark: func(v fret.Voicing) drills.Given {
			g := drills.Given{ID: v.Shape.String(), Said: wording.Shape(v.Shape), Result: drills.RightIf(fret.Serves(r.On.Tuning, v.Shape, c) && overBass(v))}
			switch _, _, _, holds := fret.Finger(v.Shape); {
			case g.Right() && !holds:
				g.Note = sayUnheld(c)
			case g.Right():
				g.Note = wording.LeftOut(v)
			case !slices.ContainsFunc(v.Strings, func(s fret.StringTone) bool { return s.Foreign }):
				g.Result = progress.Partly
			}
			return g
		},
		Explain: func(v fret.Voicing, g drills.Given, verdict *drills.Verdict) {
			shown := model
			if g.Right() {
				shown = v
				verdict.Short = wording.IsNotes(v)
				verdict.Say(wording.Tones(v))
				if !slices.Equal(v.Shape, model.Shape) {
					verdict.Say(sayAnotherShape(model.Shape))
				}
			} else if near, ok := neck.NearestKnown(r.On, c, v.Shape); ok && 2*neck.StringsMoved(near.Shape, v.Shape) <= len(v.Shape) {
				// What was nearly right is mended; else the easiest shape is worth more.
				shown, verdict.Expected = near, wording.Shape(near.Shape)
			}
			verdict.Asked = []drills.Sound{drills.Played(say.Text{}, shown, synth.Strum)}
			verdict.Shapes = []drills.Reveal{{Caption: wording.Titled(c), Voicing: shown}}
			if g.Right() {
				return
			}
			lines := lacking(v, c)
			if !overBass(v) {
				lines = append(lines, sayOtherBass(v))
			}
			lines = append(lines, called(v))
			verdict.Short = lines[0]
			if mend := mended(v, shown); !mend.IsZero() {
				verdict.Short = mend
				verdict.Say(mend)
			}
			verdict.Say(lines...)
			verdict.Show(sayHeardAs(v.Shape, c), v)
			verdict.Other = []drills.Sound{drills.Played(labelYours, v, synth.Strum)}
			verdict.SetContrast()
		},
	}
	return q.KnownByHeart(r), nil
}

// overBass reports whether the lowest note of a voicing is its chord's bass; of a chord over its root it may be any.
func overBass(v fret.Voicing) bool {
	return !chord.IsTurned(v.Chord) || neck.Lowest(v.Tuning, v.Shape)%12 == v.Chord.Bass.Class()
}

// readShape reads a shape that fits a tuning.
func readShape(t *fret.Tuning, text string) (fret.Shape, error) {
	s, err := neck.ReadSpoken(text)
	if err != nil {
		return nil, drills.ErrUnread
	}
	return s, t.Check(s)
}

// shapeChoice is a shape as an answer.
func shapeChoice(s fret.Shape) drills.Choice {
	return drills.Choice{ID: s.String(), Said: wording.Shape(s), Typed: s.String()}
}

// spaced writes a shape with spaces between its frets.
func spaced(s fret.Shape) string {
	var out []string
	for _, f := range s {
		out = append(out, fret.Shape{f}.String())
	}
	return strings.Join(out, " ")
}
