package drills

import (
	"maps"
	"math"
	"slices"

	"sparetone/progress"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// swap gives a plain shape and asks to colour it by moving one string.
type swap struct{}

func (swap) About() About {
	return About{ID: "swap", Title: "Give a shape another note by moving one string"}
}

func (swap) Targets(on *Instrument) []Target {
	var out []Target
	for _, a := range additions {
		if !tooMany(a.to(), on.Tuning) {
			out = append(out, Target{ID: a.coloured, Topic: a.topic(), Name: saySwapTarget(a), Near: a.near})
		}
	}
	return out
}

func (d swap) Ask(r Request) (*Question, error) {
	added, ok := additionTo(r.Target)
	if !ok {
		return nil, noSuchTarget(r.Target)
	}
	picked, ok := d.pickChange(r, added.from())
	if !ok {
		return nil, noSwap(r.On, added)
	}
	before, err := fret.Voice(r.On.Tuning, picked.From, picked.plain)
	if err != nil {
		return nil, err
	}
	// Every way that the theory allows is right; they come the easiest first.
	ways := slices.DeleteFunc(fret.Swaps(r.On.Tuning, picked.From, picked.plain, nil), func(s fret.Swap) bool { return s.Chord.Kind.ID != r.Target })
	easiest := ways[0]
	wanted := easiest.Chord
	q := &Question{
		Drill:    d.About().ID,
		Target:   r.Target,
		Prompt:   askSwap(picked.plain, wanted),
		Form:     Frets,
		tuning:   r.On.Tuning,
		answer:   wanted,
		Shown:    &before,
		Voice:    r.voice(),
		expected: shapeChoice(easiest.To),
	}
	for _, w := range ways {
		q.Accepts = append(q.Accepts, spaced(w.To))
	}
	swapTo := func(s fret.Shape) (fret.Swap, bool) {
		if n := slices.IndexFunc(ways, func(w fret.Swap) bool { return slices.Equal(w.To, s) }); n >= 0 {
			return ways[n], true
		}
		return wideSwap(before, s, wanted)
	}
	q.answers = answers[swapped]{
		read: func(text string) (swapped, error) {
			s, err := readShape(r.On.Tuning, text)
			if err != nil {
				return swapped{}, err
			}
			by, leads := swapTo(s)
			return swapped{s, by, leads}, nil
		},
		mark: func(a swapped) given {
			g := given{id: a.shape.String(), said: sayShape(a.shape), result: rightIf(a.leads)}
			if _, _, _, holds := fret.Finger(a.shape); a.leads && !holds {
				g.note = sayUnheld(wanted)
			}
			if !a.leads && fret.Serves(r.On.Tuning, a.shape, wanted) {
				g.result = progress.Partly
			}
			return g
		},
		explain: func(a swapped, _ given, verdict *Verdict) {
			by := a.by
			if !a.leads {
				by = nearestWay(ways, before.Shape, a.shape)
			}
			after, err := fret.Voice(r.On.Tuning, by.To, by.Chord)
			if err != nil {
				return
			}
			verdict.Shapes = []Reveal{{Caption: sayPlain(before.Chord), Voicing: before}, {Caption: sayTitled(after.Chord), Voicing: after, Mark: by.String}}
			verdict.Asked = []Sound{played(labelPlain, before, synth.Strum), played(labelChanged, after, synth.Strum)}
			verdict.Short = sayWent(by, before, after)
			if !a.leads {
				verdict.Expected = sayShape(by.To)
				verdict.Short = mendedSwap(before, a.shape, after)
				verdict.say(verdict.Short)
				verdict.say(d.wrong(r.On, picked, a.shape, verdict)...)
			}
			verdict.say(sayMoved(by, before, after))
			if a.leads && !slices.Equal(by.To, easiest.To) && easiest.Effort < by.Effort {
				verdict.say(sayEasier(r.On.Tuning, easiest))
			}
		},
	}
	return q.beforeFirst(r), nil
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
	if err != nil || moving(before.Shape, to) != 1 || len(after.Missing()) > 0 {
		return fret.Swap{}, false
	}
	if on := before.Tuning; on.HasBass() && lowest(on, before.Shape)%12 == wanted.Root.Class() && lowest(on, to)%12 != wanted.Root.Class() {
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
func move(c change) feature { return feature{position(c.From), c.String, c.ToFret - c.FromFret} }

// fewestMoves is how many answers there are at the least at a place on the neck that is asked about.
const fewestMoves = 3

// pickChange picks a shape with its easiest way to the colour. Where a shape lies is not to tell which string moves and how
// far: places that leave little to choose from are passed over as long as there are others, if need be further along
// the neck; and of the answers at a place, those that other colours have there as well come less often, so that none
// stands out.
func (swap) pickChange(r Request, plain *theory.Kind) (change, bool) {
	for reach := r.Reach; ; reach = min(1, reach+wider) {
		byMove := map[feature][]change{}
		shared := map[feature]int{} // how many colours have a move
		for _, a := range additions {
			if a.plain != plain.ID {
				continue
			}
			here := map[feature][]change{}
			for _, c := range easiestSwaps(r.On.changesTo(plain, a.coloured, reach)) {
				here[move(c)] = append(here[move(c)], c)
			}
			for m := range here {
				shared[m]++
			}
			if a.coloured == r.Target {
				byMove = here
			}
		}
		all := slices.SortedFunc(maps.Keys(byMove), func(a, b feature) int { return slices.Compare(a[:], b[:]) })
		if len(all) == 0 && reach >= 1 {
			return change{}, false
		}
		at := func(place int) []feature {
			return slices.DeleteFunc(slices.Clone(all), func(m feature) bool { return m[0] != place })
		}
		open := slices.DeleteFunc(slices.Clone(all), func(m feature) bool { return len(at(m[0])) < fewestMoves })
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
		picked := byMove[weighted(moves, func(m feature) float64 { return 1 / float64(shared[m]) }, r.Rand)]
		return picked[r.Rand.IntN(len(picked))], true
	}
}

// easiestWays keeps of the changes of each shape the first, which is the easiest.
func easiestSwaps(changes []change) []change {
	return slices.CompactFunc(changes, func(a, b change) bool {
		return a.plain.Root == b.plain.Root && slices.Equal(a.From, b.From)
	})
}

// wrong says what a shape is that was made instead, and lets it be heard.
func (swap) wrong(on *Instrument, c change, made fret.Shape, verdict *Verdict) []say.Text {
	var lines []say.Text
	movedStrings := moving(made, c.From)
	switch {
	case movedStrings == 0:
		return []say.Text{sayStill(made, c.plain)}
	case movedStrings > 1:
		lines = append(lines, sayTooManyMoved(movedStrings))
	}
	if v, err := fret.Voice(on.Tuning, made, c.plain); err == nil {
		lines = append(lines, called(v))
	}
	for _, other := range on.changes(c.plain) {
		if slices.Equal(other.From, c.From) && slices.Equal(other.To, made) {
			verdict.TakenFor = other.Chord.Kind.ID
		}
	}
	heardAs := c.plain
	if names := fret.Names(on.Tuning, made, theory.Context{}); len(names) > 0 && callable(names[0].Chord) {
		heardAs = names[0].Chord
	}
	if heard, err := fret.Voice(on.Tuning, made, heardAs); err == nil {
		verdict.shows(sayHeardAs(made, heardAs), heard)
		verdict.Other = []Sound{played(labelYours, heard, synth.Strum)}
		verdict.against()
	}
	return lines
}
