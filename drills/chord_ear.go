package drills

import (
	"fmt"
	"slices"
)

// chordEar plays a chord and asks for its kind.
type chordEar struct{}

func (chordEar) About() About {
	return About{ID: "chord-ear", Title: "Name a kind of chord by ear", Ears: true}
}

func (chordEar) Targets(on *Instrument) []Target { return kindTargets(on) }

func (d chordEar) Ask(r Request) (*Question, error) {
	choices, err := draw(d.Targets(r.On), r, kindsClash)
	if err != nil {
		return nil, err
	}
	v, err := findShape(r.On, mustKind(r.Target), r.Rand)
	if err != nil {
		return nil, err
	}
	right := namedKinds(v)
	how := drawWay(r.Rand)
	q := &Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: "Which kind of chord is it?",
		Sounds: []Sound{played("", v, how, r.Rand)},
		Voice:  drawVoice(r.On, r.Rand),
		right:  r.Target,
	}
	for _, t := range choices {
		if t.ID == r.Target || !slices.Contains(right, t.ID) {
			q.Choices = append(q.Choices, kindChoice(t.ID))
		}
	}
	q.read = func(text string) (given, bool) {
		k, ok := kindNamed(text)
		if !ok {
			return given{}, false
		}
		g := given{id: k.ID, label: k.Name, right: slices.Contains(right, k.ID)}
		if g.right && k.ID != r.Target {
			g.note = fmt.Sprintf("The same notes are %s chord and %s chord on another root: both names are right.", an(k.Name), an(v.Chord.Kind.Name))
		}
		return g, true
	}
	q.explain = func(g given, verdict *Verdict) {
		verdict.Shapes = []Reveal{{Caption: v.Chord.String() + ", " + v.Chord.Kind.Name, Voicing: v}}
		if !g.right {
			other := mustKind(g.id)
			verdict.Lines = append(verdict.Lines, differ(v, other)...)
			c := v.Chord
			c.Kind = other
			if near, ok := nearestShape(r.On, c, v.Shape); ok {
				verdict.Shapes = append(verdict.Shapes, Reveal{Caption: c.String() + ", " + other.Name, Voicing: near})
				verdict.Other = []Sound{played("", near, how, nil)}
			}
		}
		verdict.say(spares(v), leftOut(v))
	}
	return q, nil
}
