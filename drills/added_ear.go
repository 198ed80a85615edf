package drills

import (
	"slices"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// addedEar plays a plain chord, then the same shape with one string moved, and asks what was added. Its
// later targets play only the coloured chord.
type addedEar struct{}

func (addedEar) About() About {
	return About{ID: "added-ear", Title: "Hear which note was added", Ears: true}
}

// addedTask is a target: an addition, after its plain chord or heard alone.
type addedTask struct {
	addition
	alone bool
}

// addedTasks are all the targets, by their ids.
var addedTasks = tasks(func() (all []addedTask) {
	for _, alone := range []bool{false, true} {
		for _, a := range additions {
			// On its own a suspended second is the suspended fourth of another root.
			if !alone || a.coloured != "suspended-second" {
				all = append(all, addedTask{a, alone})
			}
		}
	}
	return all
}())

func (a addedTask) id() string {
	if a.alone {
		return a.coloured + "-alone"
	}
	return a.coloured
}

func (addedEar) Targets(on *Instrument) []Target {
	var out []Target
	for _, a := range addedTasks.all {
		if tooMany(a.to(), on.Tuning) || a.alone && len(on.Tuning.Strings) < 4 { // three strings have no more
			continue
		}
		t := Target{ID: a.id(), Topic: a.topic(), Name: sayAddedTarget(a)}
		for _, n := range a.near {
			near, _ := additionTo(n)
			if id := (addedTask{near, a.alone}).id(); addedTasks.has(id) {
				t.Near = append(t.Near, id)
			}
		}
		out = append(out, t)
	}
	return out
}

func (d addedEar) Ask(r Request) (*Question, error) {
	task, ok := addedTasks.of(r.Target)
	if !ok {
		return nil, noSuchTarget(r.Target)
	}
	plain := task.from()
	clash := never
	if task.alone {
		clash = func(a, b string) bool {
			one, _ := addedTasks.of(a)
			other, _ := addedTasks.of(b)
			return kindsClash(one.coloured, other.coloured)
		}
	}
	// What is not heard for itself is said: only what can be added to this triad stands among the choices.
	same := slices.DeleteFunc(d.Targets(r.On), func(t Target) bool {
		other, _ := addedTasks.of(t.ID)
		return other.alone != task.alone || other.plain != task.plain
	})
	choices, err := pick(same, r, clash)
	if err != nil {
		return nil, err
	}
	choices = r.settle(choices)
	var offered []Choice
	var among []addition
	for _, t := range choices {
		a, _ := addedTasks.of(t.ID)
		offered, among = append(offered, Choice{ID: t.ID, Said: sayAddition(a.addition), Typed: a.typed}), append(among, a.addition)
	}
	right := indexOf(choices, r.Target)
	c, err := d.pickChange(r, plain, among, right)
	if err != nil {
		return nil, err
	}
	before, err := fret.Voice(r.On.Tuning, c.From, c.plain)
	if err != nil {
		return nil, err
	}
	after, err := fret.Voice(r.On.Tuning, c.To, c.Chord)
	if err != nil {
		return nil, err
	}
	how := r.how()
	sounds := []Sound{r.plays(labelPlain, before, how), r.plays(labelChanged, after, how)}
	q := &Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: askCameIn,
		Sounds: sounds,
		Voice:  r.voice(),
	}
	if task.alone {
		q.Prompt = askCameInAlone(plain)
		sounds[1].Label = say.Text{}
		q.Sounds = sounds[1:]
	}
	q.offer(r.Target, offered...)
	q.Accepts = []string{kindTyped(c.Chord.Kind), c.Chord.Kind.Name}
	q.answers = answers[addition]{
		offered: among,
		read: func(text string) (addition, error) {
			a, ok := readAddition(plain, text)
			if !ok {
				return a, errUnread
			}
			return a, nil
		},
		mark: func(a addition) given {
			id := addedTask{a, task.alone}.id()
			return given{id: id, said: sayAddition(a), result: rightIf(id == r.Target)}
		},
		explain: func(a addition, g given, v *Verdict) {
			v.Shapes = []Reveal{
				{Caption: sayPlain(before.Chord), Voicing: before},
				{Caption: sayTitled(after.Chord), Voicing: after, Mark: c.String},
			}
			v.Short = sayWent(c.Swap, before, after)
			v.say(sayMoved(c.Swap, before, after))
			if g.right() {
				return
			}
			v.TakenFor = g.id
			v.Short = first(differ(after, a.to()))
			v.say(sentences(differ(after, a.to()))...)
			if heard, ok := d.instead(r.On, c, a.to()); ok {
				v.Other = []Sound{played(labelWith(a), heard, how)}
				if !task.alone {
					v.Other = append([]Sound{sounds[0]}, v.Other...)
				}
				v.shows(sayTitled(heard.Chord), heard)
				v.against()
			}
		},
	}
	return q, nil
}

// pickChange picks how a plain chord becomes the coloured one. Every choice could have moved the same string of a
// chord that lies as low, and have come as low.
func (addedEar) pickChange(r Request, plain *theory.Kind, among []addition, right int) (change, error) {
	options := rootLowest(r, func(reach float64) (out [][]change) {
		for _, a := range among {
			out = append(out, r.On.changesTo(plain, a.coloured, reach))
		}
		return out
	}, func(c change) held { return held{chord: c.Chord, shape: c.To} })
	t := r.On.Tuning
	c, ok := match(r, right, options,
		func(c change) feature {
			return feature{16*sounding(c.To) + c.String, lowest(t, c.From), lowest(t, c.To)}
		},
		func(c change) feature { return feature{sounding(c.To), lowest(t, c.From), lowest(t, c.To)} },
		func(c change) feature { return feature{sounding(c.To), lowest(t, c.To)} },
		func(c change) feature { return feature{sounding(c.To)} },
	)
	if !ok {
		return change{}, noSwap(r.On, among[right])
	}
	return c, nil
}

// instead returns what another addition to the same plain chord sounds like: to the same shape if it can be.
func (addedEar) instead(on *Instrument, c change, named *theory.Kind) (fret.Voicing, bool) {
	for _, o := range on.changes(c.plain) {
		if slices.Equal(o.From, c.From) && o.Chord.Kind == named {
			v, err := fret.Voice(on.Tuning, o.To, o.Chord)
			return v, err == nil
		}
	}
	other := theory.NewChord(c.plain.Root, named)
	return nearestShape(on, other, c.To)
}

// tone returns what the string with a number sounds.
func tone(v fret.Voicing, number int) fret.StringTone {
	return v.Strings[len(v.Strings)-number]
}
