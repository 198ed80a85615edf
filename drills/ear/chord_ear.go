// Package ear has the drills that are heard: intervals, kinds of chord, added notes, two notes or chords told apart.
package ear

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/fair"
	"sparetone/drills/neck"
	"sparetone/drills/wording"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/say"
)

// Chord plays a chord and asks for its kind.
type Chord struct{}

func (Chord) About() drills.About {
	return drills.About{ID: "chord-ear", Title: "Name a kind of chord by ear", Ears: true}
}

func (Chord) Targets(on *neck.Instrument) []drills.Target { return drills.KindTargets(on) }

func (Chord) Rungs(string) []drills.Rung { return drills.KindRungs }

func (d Chord) Ask(r drills.Request) (*drills.Question, error) {
	choices, err := fair.Pick(d.Targets(r.On), r, chord.Clash)
	if err != nil {
		return nil, err
	}
	choices = r.Settle(choices)
	options := fair.RootLowest(r, func(reach float64) [][]neck.Held { return r.ShapesOfEach(choices, reach) }, neck.Held.Itself)
	alike := heardAlike(r.On)
	if r.Clarity.OneRoot || r.Clarity.Among {
		alike = heardOnARoot(r.On)
	}
	h, ok := fair.Match(r, drills.IndexOf(choices, r.Target), options, alike...)
	if !ok {
		return nil, neck.NoShape(r.On, chord.Kind(r.Target))
	}
	v, err := h.Voice(r.On)
	if err != nil {
		return nil, err
	}
	names := chord.RightNames(v)
	how := r.How()
	q := &drills.Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: askKind,
		Sounds: []drills.Sound{r.Plays(say.Text{}, v, how)},
		Voice:  r.Voice(),
	}
	if plain, ok := plainBefore(r, v.Chord.Root); ok {
		q.Prompt = askKindAfter
		q.Sounds[0].Label = labelSecond
		q.Sounds = []drills.Sound{r.Plays(wording.LabelPlain, plain, how), q.Sounds[0]}
	}
	if around, ok := around(r, v.Chord.Root); ok {
		q.Prompt, q.Among = askKindAmong, true
		q.Sounds = []drills.Sound{r.Plays(labelFirst, around[0], how), r.Plays(labelSecond, v, how), r.Plays(labelThird, around[1], how)}
	}
	var offered []drills.Choice
	var kinds []*theory.Kind
	for _, t := range choices {
		offered, kinds = append(offered, kindChoice(t.ID)), append(kinds, chord.Kind(t.ID))
	}
	q.Offer(r.Target, offered...)
	for _, n := range names {
		q.Accepts = append(q.Accepts, n.Kind.Name)
	}
	for _, symbol := range chord.Kind(r.Target).Symbols {
		if symbol != "" && !isNumber(symbol) {
			q.Accepts = append(q.Accepts, symbol)
		}
	}
	q.Answers = drills.Answers[*theory.Kind]{
		Offered: kinds,
		Read: func(text string) (*theory.Kind, error) {
			if k, ok := read.Kind(text); ok {
				return k, nil
			}
			return nil, drills.ErrUnread
		},
		Mark: func(k *theory.Kind) drills.Given {
			g := drills.Given{ID: k.ID, Said: wording.Kind(k)}
			g.Result = drills.RightIf(slices.ContainsFunc(names, func(c theory.Chord) bool { return c.Kind == k }))
			if g.Right() && k.ID != r.Target {
				g.Note = sayBothNames(k, v.Chord.Kind)
			}
			return g
		},
		Explain: func(k *theory.Kind, g drills.Given, verdict *drills.Verdict) {
			others := chord.NamesBeside(names, v.Chord)
			verdict.Shapes = []drills.Reveal{{Caption: wording.Named(v.Chord, others), Voicing: v}}
			verdict.Short = wording.IsNotes(v)
			if len(others) > 0 {
				verdict.Say(wording.AlsoCalled(others)) // not at once: its kind was asked, and of two roots one may have sounded before
			}
			if !g.Right() {
				verdict.TakenFor = k.ID
				verdict.Short = wording.First(wording.Differences(v, k))
				verdict.Say(wording.Sentences(wording.Differences(v, k))...)
				c := chord.TurnedAs(theory.NewChord(v.Chord.Root, k), v.Chord)
				if near, ok := neck.NearestShape(r.On, c, v.Shape); ok {
					verdict.Show(wording.Titled(c), near)
					verdict.Other = []drills.Sound{drills.Played(wording.Titled(c), near, how)}
					verdict.SetContrast()
				}
			}
			verdict.Say(wording.Tones(v), wording.LeftOut(v))
		},
	}
	return q, nil
}

// plainBefore returns the major chord on a root that is heard first, where it is.
func plainBefore(r drills.Request, root theory.Note) (fret.Voicing, bool) {
	if !r.Clarity.OneRoot {
		return fret.Voicing{}, false
	}
	return plainOn(r.On, root)
}

// around returns the two chords that a chord on a root is heard between, where it is: those of a key in which its root is the first note,
// the fourth before it and the fifth after it, whatever its kind, so that they tell nothing of that.
func around(r drills.Request, root theory.Note) (out [2]fret.Voicing, ok bool) {
	if !r.Clarity.Among {
		return out, false
	}
	before, isBefore := plainOn(r.On, root.Up(theory.PerfectFourth))
	after, isAfter := plainOn(r.On, root.Up(theory.PerfectFifth))
	return [2]fret.Voicing{before, after}, isBefore && isAfter
}

// plainOn returns the major chord on a root in its easiest shape, if the instrument has it.
func plainOn(on *neck.Instrument, root theory.Note) (fret.Voicing, bool) {
	shapes := on.Shapes(theory.NewChord(root, chord.Kind("major")))
	if len(shapes) == 0 {
		return fret.Voicing{}, false
	}
	v, err := shapes[0].Voice(on)
	return v, err == nil
}

// heardOnARoot are the features of a chord that is heard after another on its root.
func heardOnARoot(on *neck.Instrument) []func(neck.Held) fair.Feature {
	return []func(neck.Held) fair.Feature{
		func(h neck.Held) fair.Feature {
			return fair.Feature{neck.Sounding(h.Shape), neck.Lowest(on.Tuning, h.Shape), h.Chord.Root.Class()}
		},
		func(h neck.Held) fair.Feature {
			return fair.Feature{0, neck.Lowest(on.Tuning, h.Shape), h.Chord.Root.Class()}
		},
		func(h neck.Held) fair.Feature { return fair.Feature{neck.Sounding(h.Shape), 0, h.Chord.Root.Class()} },
		func(h neck.Held) fair.Feature { return fair.Feature{neck.Sounding(h.Shape)} },
	}
}

// heardAlike are the features of a chord that is heard: how many strings sound, and how low.
func heardAlike(on *neck.Instrument) []func(neck.Held) fair.Feature {
	return []func(neck.Held) fair.Feature{
		func(h neck.Held) fair.Feature {
			return fair.Feature{neck.Sounding(h.Shape), neck.Lowest(on.Tuning, h.Shape)}
		},
		func(h neck.Held) fair.Feature { return fair.Feature{neck.Sounding(h.Shape)} },
	}
}

// kindChoice is how a kind of chord is offered as an answer.
func kindChoice(id string) drills.Choice {
	k := chord.Kind(id)
	return drills.Choice{ID: id, Said: wording.Kind(k), Typed: chord.TypedKind(k)}
}

// isNumber reports whether a text would be taken for the number of a choice.
func isNumber(s string) bool { return len(s) == 1 && s[0] >= '1' && s[0] <= '0'+drills.MostChoices }
