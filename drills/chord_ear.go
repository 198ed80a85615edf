package drills

import (
	"slices"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/say"
)

// chordEar plays a chord and asks for its kind.
type chordEar struct{}

func (chordEar) About() About {
	return About{ID: "chord-ear", Title: "Name a kind of chord by ear", Ears: true}
}

func (chordEar) Targets(on *Instrument) []Target { return kindTargets(on) }

func (d chordEar) Ask(r Request) (*Question, error) {
	choices, err := pick(d.Targets(r.On), r, kindsClash)
	if err != nil {
		return nil, err
	}
	choices = r.settle(choices)
	options := rootLowest(r, func(reach float64) [][]held { return r.On.shapesOfEach(choices, reach) }, held.itself)
	alike := heardAlike(r.On)
	if r.Clarity.OneRoot {
		alike = heardOnARoot(r.On)
	}
	h, ok := match(r, indexOf(choices, r.Target), options, alike...)
	if !ok {
		return nil, noShape(r.On, mustKind(r.Target))
	}
	v, err := h.voice(r.On)
	if err != nil {
		return nil, err
	}
	names := rightNames(v)
	how := r.how()
	q := &Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: askKind,
		Sounds: []Sound{r.plays(say.Text{}, v, how)},
		Voice:  r.voice(),
	}
	if plain, ok := r.plainBefore(v.Chord.Root); ok {
		q.Prompt = askKindAfter
		q.Sounds[0].Label = labelSecond
		q.Sounds = []Sound{r.plays(labelPlain, plain, how), q.Sounds[0]}
	}
	var offered []Choice
	var kinds []*theory.Kind
	for _, t := range choices {
		offered, kinds = append(offered, kindChoice(t.ID)), append(kinds, mustKind(t.ID))
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
	q.answers = answers[*theory.Kind]{
		offered: kinds,
		read: func(text string) (*theory.Kind, error) {
			if k, ok := read.Kind(text); ok {
				return k, nil
			}
			return nil, errUnread
		},
		mark: func(k *theory.Kind) given {
			g := given{id: k.ID, said: sayKind(k)}
			g.result = rightIf(slices.ContainsFunc(names, func(c theory.Chord) bool { return c.Kind == k }))
			if g.right() && k.ID != r.Target {
				g.note = sayBothNames(k, v.Chord.Kind)
			}
			return g
		},
		explain: func(k *theory.Kind, g given, verdict *Verdict) {
			others := namesBeside(names, v.Chord)
			verdict.Shapes = []Reveal{{Caption: sayNamed(v.Chord, others), Voicing: v}}
			verdict.Short = sayIsNotes(v)
			if len(others) > 0 {
				verdict.Short = sayAlsoCalled(others)
				verdict.say(verdict.Short)
			}
			if !g.right() {
				verdict.TakenFor = k.ID
				verdict.Short = first(differ(v, k))
				verdict.say(sentences(differ(v, k))...)
				c := v.Chord
				c.Kind = k
				if near, ok := nearestShape(r.On, c, v.Shape); ok {
					verdict.shows(sayTitled(c), near)
					verdict.Other = []Sound{played(sayTitled(c), near, how)}
					verdict.against()
				}
			}
			verdict.say(sayTones(v), sayLeftOut(v))
		},
	}
	return q, nil
}

// plainBefore returns the major chord on a root that is heard first, where it is: its easiest shape, whatever comes after it.
func (r Request) plainBefore(root theory.Note) (fret.Voicing, bool) {
	if !r.Clarity.OneRoot {
		return fret.Voicing{}, false
	}
	shapes := r.On.shapes(theory.NewChord(root, mustKind("major")))
	if len(shapes) == 0 {
		return fret.Voicing{}, false
	}
	v, err := shapes[0].voice(r.On)
	return v, err == nil
}

// heardOnARoot are the features of a chord that is heard after another on its root.
func heardOnARoot(on *Instrument) []func(held) feature {
	return []func(held) feature{
		func(h held) feature {
			return feature{sounding(h.shape), lowest(on.Tuning, h.shape), h.chord.Root.Class()}
		},
		func(h held) feature { return feature{0, lowest(on.Tuning, h.shape), h.chord.Root.Class()} },
		func(h held) feature { return feature{sounding(h.shape), 0, h.chord.Root.Class()} },
		func(h held) feature { return feature{sounding(h.shape)} },
	}
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
