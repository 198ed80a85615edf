package shapes

import (
	"maps"
	"math"
	"slices"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/fair"
	"sparetone/drills/neck"
	"sparetone/drills/wording"
	"sparetone/progress"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Swap gives a plain shape and asks to colour it by moving one string.
type Swap struct{}

func (Swap) About() drills.About {
	return drills.About{ID: "swap", Title: "Give a shape another note by moving one string"}
}

func (Swap) Targets(on *neck.Instrument) []drills.Target {
	var out []drills.Target
	for _, a := range chord.Additions {
		if !chord.TooMany(a.To(), on.Tuning) {
			out = append(out, drills.Target{ID: a.Coloured, Topic: drills.AdditionTopic(a), Name: saySwapTarget(a), Near: a.Near})
		}
	}
	return out
}

func (Swap) Rungs(string) []drills.Rung { return drills.NeckRungs }

func (d Swap) Ask(r drills.Request) (*drills.Question, error) {
	added, ok := chord.AdditionTo(r.Target)
	if !ok {
		return nil, drills.NoSuchTarget(r.Target)
	}
	picked, ok := d.pickChange(r, added.From())
	if !ok {
		return nil, neck.NoSwap(r.On, added)
	}
	before, err := fret.Voice(r.On.Tuning, picked.From, picked.Plain)
	if err != nil {
		return nil, err
	}
	// Every way that the theory allows is right; they come the easiest first.
	swaps := slices.DeleteFunc(fret.Swaps(r.On.Tuning, picked.From, picked.Plain, nil), func(s fret.Swap) bool { return s.Chord.Kind.ID != r.Target })
	easiest := swaps[0]
	wanted := easiest.Chord
	q := &drills.Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: askSwap(picked.Plain, wanted),
		Form:   drills.Frets,
		Tuning: r.On.Tuning,
		Answer: wanted,
		Shown:  &before,
		Voice:  r.Voice(),
	}
	q.Expect(shapeChoice(easiest.To))
	for _, w := range swaps {
		q.Accepts = append(q.Accepts, spaced(w.To))
	}
	swapTo := func(s fret.Shape) (fret.Swap, bool) {
		if n := slices.IndexFunc(swaps, func(w fret.Swap) bool { return slices.Equal(w.To, s) }); n >= 0 {
			return swaps[n], true
		}
		return wideSwap(before, s, wanted)
	}
	q.Answers = drills.Answers[swapped]{
		Read: func(text string) (swapped, error) {
			s, err := readShape(r.On.Tuning, text)
			if err != nil {
				return swapped{}, err
			}
			by, leads := swapTo(s)
			return swapped{s, by, leads}, nil
		},
		Mark: func(a swapped) drills.Given {
			g := drills.Given{ID: a.shape.String(), Said: wording.Shape(a.shape), Result: drills.RightIf(a.leads)}
			if _, _, _, holds := fret.Finger(a.shape); a.leads && !holds {
				g.Note = sayUnheld(wanted)
			}
			if !a.leads && fret.Serves(r.On.Tuning, a.shape, wanted) {
				g.Result = progress.Partly
			}
			return g
		},
		Explain: func(a swapped, _ drills.Given, verdict *drills.Verdict) {
			by := a.by
			if !a.leads {
				by = nearestSwap(swaps, before.Shape, a.shape)
			}
			after, err := fret.Voice(r.On.Tuning, by.To, by.Chord)
			if err != nil {
				return
			}
			verdict.Shapes = []drills.Reveal{{Caption: wording.Plain(before.Chord), Voicing: before}, {Caption: wording.Titled(after.Chord), Voicing: after, Mark: by.String}}
			verdict.Asked = []drills.Sound{drills.Played(wording.LabelPlain, before, synth.Strum), drills.Played(wording.LabelChanged, after, synth.Strum)}
			verdict.Short = wording.Went(by, before, after)
			if !a.leads {
				verdict.Expected = wording.Shape(by.To)
				verdict.Short = mendedSwap(before, a.shape, after)
				verdict.Say(verdict.Short)
				verdict.Say(d.wrong(r.On, picked, a.shape, verdict)...)
			}
			verdict.Say(wording.Moved(by, before, after))
			if a.leads && !slices.Equal(by.To, easiest.To) && easiest.Effort < by.Effort {
				verdict.Say(sayEasier(r.On.Tuning, easiest))
			}
		},
	}
	return q.BeforeFirst(r), nil
}

// swapped is an answer: a shape, and how it is made of the plain one, if it leads to the chord.
type swapped struct {
	shape fret.Shape
	by    fret.Swap
	leads bool
}

// wideSwap is a swap to a chord, with all its notes, that moves one string further than a hand spans: right as well.
func wideSwap(before fret.Voicing, to fret.Shape, wanted theory.Chord) (fret.Swap, bool) {
	after, err := fret.Voice(before.Tuning, to, wanted)
	if err != nil || neck.StringsMoved(before.Shape, to) != 1 || len(after.Missing()) > 0 {
		return fret.Swap{}, false
	}
	if on := before.Tuning; on.HasBass() && neck.Lowest(on, before.Shape)%12 == wanted.Root.Class() && neck.Lowest(on, to)%12 != wanted.Root.Class() {
		return fret.Swap{}, false // the root is no longer in the bass
	}
	wide := fret.Swap{From: before.Shape, To: to, Chord: wanted, Effort: math.Inf(1)}
	for i, s := range after.Strings {
		if s.Foreign {
			return fret.Swap{}, false
		}
		if from := before.Strings[i]; from.Fret != s.Fret {
			if from.Fret == fret.Muted || s.Fret == fret.Muted {
				return fret.Swap{}, false
			}
			wide.String, wide.FromFret, wide.ToFret, wide.Spare = s.Number, from.Fret, s.Fret, from.Doubled
		}
	}
	return wide, true
}

// move is what tells one answer from another: the string that moves and by how many frets; and where on the neck the
// shape lies.
func move(c neck.Change) fair.Feature {
	return fair.Feature{neck.LowestFret(c.From), c.String, c.ToFret - c.FromFret}
}

// fewestMoves is how many answers there are at the least at a place on the neck that is asked about.
const fewestMoves = 3

// pickChange picks a shape with its easiest way to the colour. Where a shape lies is not to tell which string moves and how
// far: places that leave little to choose from are passed over as long as there are others, if need be further along
// the neck; and of the answers at a place, those that other colours have there as well come less often, so that none
// stands out.
func (Swap) pickChange(r drills.Request, plain *theory.Kind) (neck.Change, bool) {
	for reach := r.Reach; ; reach = min(1, reach+fair.Wider) {
		byMove := map[fair.Feature][]neck.Change{}
		shared := map[fair.Feature]int{} // how many colours have a move
		for _, a := range chord.Additions {
			if a.Plain != plain.ID {
				continue
			}
			here := map[fair.Feature][]neck.Change{}
			for _, c := range easiestSwaps(r.On.ChangesTo(plain, a.Coloured, reach)) {
				here[move(c)] = append(here[move(c)], c)
			}
			for m := range here {
				shared[m]++
			}
			if a.Coloured == r.Target {
				byMove = here
			}
		}
		all := slices.SortedFunc(maps.Keys(byMove), func(a, b fair.Feature) int { return slices.Compare(a[:], b[:]) })
		if len(all) == 0 && reach >= 1 {
			return neck.Change{}, false
		}
		at := func(place int) []fair.Feature {
			return slices.DeleteFunc(slices.Clone(all), func(m fair.Feature) bool { return m[0] != place })
		}
		open := slices.DeleteFunc(slices.Clone(all), func(m fair.Feature) bool { return len(at(m[0])) < fewestMoves })
		if r.First && len(all) > 0 {
			open = all // it has just been shown, so no place tells more
		}
		if len(open) == 0 {
			if reach < 1 {
				continue
			}
			open = all
		}
		moves := at(open[r.Rand.IntN(len(open))][0])
		picked := byMove[fair.Weighted(moves, func(m fair.Feature) float64 { return 1 / float64(shared[m]) }, r.Rand)]
		return picked[r.Rand.IntN(len(picked))], true
	}
}

// easiestSwaps keeps, of the changes of each shape, the first, which is the easiest.
func easiestSwaps(changes []neck.Change) []neck.Change {
	return slices.CompactFunc(changes, func(a, b neck.Change) bool {
		return a.Plain.Root == b.Plain.Root && slices.Equal(a.From, b.From)
	})
}

// wrong says what a shape is that was made instead, and lets it be heard.
func (Swap) wrong(on *neck.Instrument, c neck.Change, made fret.Shape, verdict *drills.Verdict) []say.Text {
	var lines []say.Text
	movedStrings := neck.StringsMoved(made, c.From)
	switch {
	case movedStrings == 0:
		return []say.Text{sayStill(made, c.Plain)}
	case movedStrings > 1:
		lines = append(lines, sayTooManyMoved(movedStrings))
	}
	if v, err := fret.Voice(on.Tuning, made, c.Plain); err == nil {
		lines = append(lines, called(v))
	}
	for _, other := range on.Changes(c.Plain) {
		if slices.Equal(other.From, c.From) && slices.Equal(other.To, made) {
			verdict.TakenFor = other.Chord.Kind.ID
		}
	}
	heardAs := c.Plain
	if names := fret.Names(on.Tuning, made, theory.Context{}); len(names) > 0 && callable(names[0].Chord) {
		heardAs = names[0].Chord
	}
	if heard, err := fret.Voice(on.Tuning, made, heardAs); err == nil {
		verdict.Show(sayHeardAs(made, heardAs), heard)
		verdict.Other = []drills.Sound{drills.Played(labelYours, heard, synth.Strum)}
		verdict.SetContrast()
	}
	return lines
}
