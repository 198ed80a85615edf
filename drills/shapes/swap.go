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
// the neck; and of the answers at a place, those that come often there for all colours together come less often, so that none stands out.
func (Swap) pickChange(r drills.Request, plain *theory.Kind) (neck.Change, bool) {
	furthest := 1.0
	if r.Reach < neck.NewReach {
		furthest = r.Reach // in the first shapes
	}
	for reach := r.Reach; ; reach = min(1, reach+fair.Wider) {
		var byMove map[fair.Feature][]neck.Change // of the colour that is asked for
		var colours []map[fair.Feature][]neck.Change
		for _, a := range chord.Additions {
			if a.Plain != plain.ID {
				continue
			}
			here := map[fair.Feature][]neck.Change{}
			for _, c := range easiestSwaps(r.On.ChangesTo(plain, a.Coloured, reach)) {
				here[move(c)] = append(here[move(c)], c)
			}
			colours = append(colours, here)
			if a.Coloured == r.Target {
				byMove = here
			}
		}
		if len(byMove) == 0 && reach >= 1 {
			return neck.Change{}, false
		}
		open := openMoves(byMove)
		if r.First && len(byMove) > 0 {
			open = movesIn(byMove) // it has just been shown, so no place tells more
		}
		if len(open) == 0 {
			if reach < furthest || len(byMove) == 0 {
				continue
			}
			open = movesIn(byMove)
		}
		place := open[r.Rand.IntN(len(open))][0]
		often := evenly(colours, place)
		picked := byMove[fair.Weighted(movesAt(movesIn(byMove), place), func(m fair.Feature) float64 { return often[m] }, r.Rand)]
		return picked[r.Rand.IntN(len(picked))], true
	}
}

// movesIn lists the moves of a colour, in a fixed order.
func movesIn(byMove map[fair.Feature][]neck.Change) []fair.Feature {
	return slices.SortedFunc(maps.Keys(byMove), func(a, b fair.Feature) int { return slices.Compare(a[:], b[:]) })
}

// movesAt are those of some moves that lie at a place.
func movesAt(all []fair.Feature, place int) []fair.Feature {
	return slices.DeleteFunc(slices.Clone(all), func(m fair.Feature) bool { return m[0] != place })
}

// openMoves are the moves of a colour at the places that leave enough of them to choose from.
func openMoves(byMove map[fair.Feature][]neck.Change) []fair.Feature {
	all := movesIn(byMove)
	return slices.DeleteFunc(slices.Clone(all), func(m fair.Feature) bool { return len(movesAt(all, m[0])) < fewestMoves })
}

// roundsToEven is how often the moves at a place are weighed anew. With none the place tells 2.2 points on a guitar and more on a five-string
// banjo; with many a move that most colours have, as that of F to Fadd9 on a ukulele, would never be asked for.
const roundsToEven = 4

// evenly weighs the moves at a place so that of the questions of all colours there each move is the answer as nearly equally often as can
// be: a move that is too often is weighed less, in rounds.
func evenly(colours []map[fair.Feature][]neck.Change, place int) map[fair.Feature]float64 {
	weights := map[fair.Feature]float64{}
	var rows [][]fair.Feature // of the colours that are asked for at the place
	var comes []float64       // how often each is asked for there
	for _, byMove := range colours {
		open := openMoves(byMove)
		here := movesAt(open, place)
		if len(here) == 0 {
			here = movesAt(movesIn(byMove), place)
			for _, m := range here {
				weights[m] = 1
			}
			continue
		}
		rows, comes = append(rows, here), append(comes, float64(len(here))/float64(len(open)))
		for _, m := range here {
			weights[m] = 1
		}
	}
	for range roundsToEven {
		often := map[fair.Feature]float64{}
		for n, row := range rows {
			sum := 0.0
			for _, m := range row {
				sum += weights[m]
			}
			for _, m := range row {
				often[m] += comes[n] * weights[m] / sum
			}
		}
		for m, o := range often {
			weights[m] /= math.Sqrt(o)
		}
	}
	return weights
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
		if still, err := fret.Voice(on.Tuning, made, c.Plain); err == nil {
			verdict.Other = []drills.Sound{drills.Played(labelYours, still, synth.Strum)}
			verdict.SetContrast()
		}
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
