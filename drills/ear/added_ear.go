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
	"sparetone/theory/say"
)

// AddedNote plays a plain chord, then the same shape with one string moved, and asks what was added. Its
// later targets play only the coloured chord.
type AddedNote struct{}

func (AddedNote) About() drills.About {
	return drills.About{ID: "added-ear", Title: "Hear which note was added", Ears: true}
}

// addedTask is a target: an addition, after its plain chord or heard alone.
type addedTask struct {
	chord.Addition
	alone bool
}

// addedTasks are all the targets, by their ids.
var addedTasks = drills.Tasks(func() (all []addedTask) {
	for _, alone := range []bool{false, true} {
		for _, a := range chord.Additions {
			// On its own a suspended second is the suspended fourth of another root.
			if !alone || a.Coloured != "suspended-second" {
				all = append(all, addedTask{a, alone})
			}
		}
	}
	return all
}())

func (a addedTask) ID() string {
	if a.alone {
		return a.Coloured + "-alone"
	}
	return a.Coloured
}

func (AddedNote) Targets(on *neck.Instrument) []drills.Target {
	var out []drills.Target
	for _, a := range addedTasks.All {
		if chord.TooMany(a.To(), on.Tuning) || a.alone && len(on.Tuning.Strings) < 4 { // three strings have no more
			continue
		}
		t := drills.Target{ID: a.ID(), Topic: drills.AdditionTopic(a.Addition), Name: sayAddedTarget(a.Addition, a.alone)}
		for _, n := range a.Near {
			near, _ := chord.AdditionTo(n)
			if id := (addedTask{near, a.alone}).ID(); addedTasks.Has(id) {
				t.Near = append(t.Near, id)
			}
		}
		out = append(out, t)
	}
	return out
}

func (AddedNote) Rungs(target string) []drills.Rung {
	if task, ok := addedTasks.Of(target); ok && task.alone {
		return drills.AloneRungs
	}
	return drills.ChordRungs
}

func (d AddedNote) Ask(r drills.Request) (*drills.Question, error) {
	task, ok := addedTasks.Of(r.Target)
	if !ok {
		return nil, drills.NoSuchTarget(r.Target)
	}
	plain := task.From()
	clash := fair.Never
	if task.alone {
		clash = func(a, b string) bool {
			one, _ := addedTasks.Of(a)
			other, _ := addedTasks.Of(b)
			return chord.Clash(one.Coloured, other.Coloured)
		}
	}
	// What is not heard for itself is said: only what can be added to this triad stands among the choices.
	same := slices.DeleteFunc(d.Targets(r.On), func(t drills.Target) bool {
		other, _ := addedTasks.Of(t.ID)
		return other.alone != task.alone || other.Plain != task.Plain
	})
	choices, err := fair.Pick(same, r, clash)
	if err != nil {
		return nil, err
	}
	choices = r.Settle(choices)
	var offered []drills.Choice
	var among []chord.Addition
	for _, t := range choices {
		a, _ := addedTasks.Of(t.ID)
		offered, among = append(offered, drills.Choice{ID: t.ID, Said: wording.Addition(a.Addition), Typed: a.Typed}), append(among, a.Addition)
	}
	right := drills.IndexOf(choices, r.Target)
	c, err := d.pickChange(r, plain, among, right)
	if err != nil {
		return nil, err
	}
	before, err := fret.Voice(r.On.Tuning, c.From, c.Plain)
	if err != nil {
		return nil, err
	}
	after, err := fret.Voice(r.On.Tuning, c.To, c.Chord)
	if err != nil {
		return nil, err
	}
	how := r.How()
	sounds := []drills.Sound{r.Plays(wording.LabelPlain, before, how), r.Plays(wording.LabelChanged, after, how)}
	q := &drills.Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: askCameIn,
		Sounds: sounds,
		Voice:  r.Voice(),
	}
	if task.alone {
		q.Prompt = askCameInAlone(plain)
		sounds[1].Label = say.Text{}
		q.Sounds = sounds[1:]
	}
	q.Offer(r.Target, offered...)
	q.Accepts = []string{chord.TypedKind(c.Chord.Kind), c.Chord.Kind.Name}
	q.Answers = drills.Answers[chord.Addition]{
		Offered: among,
		Read: func(text string) (chord.Addition, error) {
			a, ok := chord.ReadAddition(plain, text)
			if !ok {
				return a, drills.ErrUnread
			}
			return a, nil
		},
		Mark: func(a chord.Addition) drills.Given {
			id := addedTask{a, task.alone}.ID()
			return drills.Given{ID: id, Said: wording.Addition(a), Result: drills.RightIf(id == r.Target)}
		},
		Explain: func(a chord.Addition, g drills.Given, v *drills.Verdict) {
			v.Shapes = []drills.Reveal{
				{Caption: wording.Plain(before.Chord), Voicing: before},
				{Caption: wording.Titled(after.Chord), Voicing: after, Mark: c.String},
			}
			v.Short = wording.Went(c.Swap, before, after)
			v.Say(wording.Moved(c.Swap, before, after))
			if g.Right() {
				return
			}
			v.TakenFor = g.ID
			v.Short = wording.First(wording.Differences(after, a.To()))
			v.Say(wording.Sentences(wording.Differences(after, a.To()))...)
			if heard, ok := d.instead(r.On, c, a.To()); ok {
				v.Other = []drills.Sound{drills.Played(labelWith(a), heard, how)}
				if !task.alone {
					v.Other = append([]drills.Sound{sounds[0]}, v.Other...)
				}
				v.Show(wording.Titled(heard.Chord), heard)
				v.SetContrast()
			}
		},
	}
	return q, nil
}

// pickChange picks how a plain chord becomes the coloured one. Every choice could have moved the same string of a
// chord that lies as low, and have come as low.
func (AddedNote) pickChange(r drills.Request, plain *theory.Kind, among []chord.Addition, right int) (neck.Change, error) {
	options := fair.RootLowest(r, func(reach float64) (out [][]neck.Change) {
		for _, a := range among {
			out = append(out, r.On.ChangesTo(plain, a.Coloured, reach))
		}
		return out
	}, func(c neck.Change) neck.Held { return neck.Held{Chord: c.Chord, Shape: c.To} })
	t := r.On.Tuning
	c, ok := fair.Match(r, right, options,
		func(c neck.Change) fair.Feature {
			return fair.Feature{16*neck.Sounding(c.To) + c.String, neck.Lowest(t, c.From), neck.Lowest(t, c.To)}
		},
		func(c neck.Change) fair.Feature {
			return fair.Feature{neck.Sounding(c.To), neck.Lowest(t, c.From), neck.Lowest(t, c.To)}
		},
		func(c neck.Change) fair.Feature { return fair.Feature{neck.Sounding(c.To), neck.Lowest(t, c.To)} },
		func(c neck.Change) fair.Feature { return fair.Feature{neck.Sounding(c.To)} },
	)
	if !ok {
		return neck.Change{}, neck.NoSwap(r.On, among[right])
	}
	return c, nil
}

// instead returns what another addition to the same plain chord sounds like: to the same shape if it can be.
func (AddedNote) instead(on *neck.Instrument, c neck.Change, named *theory.Kind) (fret.Voicing, bool) {
	for _, o := range on.Changes(c.Plain) {
		if slices.Equal(o.From, c.From) && o.Chord.Kind == named {
			v, err := fret.Voice(on.Tuning, o.To, o.Chord)
			return v, err == nil
		}
	}
	other := theory.NewChord(c.Plain.Root, named)
	return neck.NearestShape(on, other, c.To)
}
