package drills

import (
	"fmt"
	"slices"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
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
	choices = r.settle(choices)
	options := func(reach float64) [][]held { return r.On.shapesOfEach(choices, reach) }
	h, ok := match(r, placeOf(choices, r.Target), options, heardAlike(r.On)...)
	if !ok {
		return nil, noShape(r.On, mustKind(r.Target))
	}
	v, err := h.voice(r.On)
	if err != nil {
		return nil, err
	}
	names := rightNames(v)
	how := drawWay(r.Rand)
	q := &Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: "Which kind of chord is it?",
		Sounds: []Sound{played("", v, how, r.Rand)},
		Voice:  drawVoice(r.On, r.Rand),
	}
	var offered []Choice
	for _, t := range choices {
		offered = append(offered, kindChoice(t.ID))
	}
	q.offer(r.Target, offered...)
	for _, n := range names {
		q.Accepts = append(q.Accepts, n.Kind.Name)
	}
	for _, symbol := range mustKind(r.Target).Symbols {
		if symbol != "" && !isNumber(symbol) {
			q.Accepts = append(q.Accepts, symbol)
		}
	}
	q.read = func(text string) (given, error) {
		k, ok := read.Kind(text)
		if !ok {
			return given{}, errUnread
		}
		right := slices.ContainsFunc(names, func(c theory.Chord) bool { return c.Kind == k })
		g := given{id: k.ID, label: k.Name, result: rightIf(right)}
		if right && k.ID != r.Target {
			g.note = fmt.Sprintf("The same notes make %s chord on one root and %s chord on another: both names are right.", an(k.Name), an(v.Chord.Kind.Name))
		}
		return g, nil
	}
	q.explain = func(g given, verdict *Verdict) {
		verdict.Shapes = []Reveal{{Caption: titled(v.Chord), Voicing: v}}
		if !g.right() {
			verdict.TakenFor = g.id
			other := mustKind(g.id)
			verdict.say(differ(v, other)...)
			c := v.Chord
			c.Kind = other
			if near, ok := nearestShape(r.On, c, v.Shape); ok {
				verdict.Shapes = append(verdict.Shapes, Reveal{Caption: c.String() + ", " + other.Name, Voicing: near})
				verdict.Other = []Sound{played("", near, how, nil)}
			}
		}
		verdict.say(tones(v), leftOut(v))
	}
	return q, nil
}

// heardAlike are the features of a chord that is heard: how many strings sound, and how low.
func heardAlike(on *Instrument) []func(held) feature {
	return []func(held) feature{
		func(h held) feature { return feature{sounding(h.shape), lowest(on.Tuning, h.shape)} },
		func(h held) feature { return feature{sounding(h.shape)} },
	}
}

// seen is the feature of a shape that is seen: where on the neck it lies, and how many strings sound.
func seen(h held) feature { return feature{sounding(h.shape), position(h.shape)} }

// seenVoicing is the same feature of a voicing.
func seenVoicing(v fret.Voicing) feature { return feature{sounding(v.Shape), position(v.Shape)} }
