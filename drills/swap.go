package drills

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"sparetone/progress"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// swap gives a plain shape and asks to colour it by moving one string.
type swap struct{}

func (swap) About() About {
	return About{ID: "swap", Title: "Give a shape another note by moving one string"}
}

func (swap) Targets(on *Instrument) []Target {
	var out []Target
	for _, a := range additions {
		if !tooMany(mustKind(a.coloured), on.Tuning) {
			out = append(out, Target{ID: a.coloured, Name: joins(a.plain, a.coloured) + ", by moving one string", Near: a.near})
		}
	}
	return out
}

func (d swap) Ask(r Request) (*Question, error) {
	n := additionOf("", r.Target)
	if n < 0 {
		return nil, fmt.Errorf("%q is nothing this drill asks", r.Target)
	}
	drawn, ok := d.draw(r, mustKind(additions[n].plain))
	if !ok {
		return nil, fmt.Errorf("%s has no shape of %s chord that becomes %s by one string",
			r.On.Tuning.Name, an(additions[n].plain), an(mustKind(r.Target).Name))
	}
	before, err := fret.Voice(r.On.Tuning, drawn.From, drawn.plain)
	if err != nil {
		return nil, err
	}
	// Every way that the theory allows is right; they come the easiest first.
	ways := slices.DeleteFunc(fret.Swaps(r.On.Tuning, drawn.From, drawn.plain, nil), func(s fret.Swap) bool { return s.Chord.Kind.ID != r.Target })
	easiest := ways[0]
	wanted := easiest.Chord
	q := &Question{
		Drill:    d.About().ID,
		Target:   r.Target,
		Prompt:   fmt.Sprintf("This is %s. Make it %s by moving one string.", drawn.plain, wanted),
		Form:     Frets,
		tuning:   r.On.Tuning,
		answer:   wanted,
		Shown:    &before,
		Voice:    drawVoice(r.On, r.Rand),
		expected: shapeChoice(easiest.To),
	}
	for _, w := range ways {
		q.Accepts = append(q.Accepts, spaced(w.To))
	}
	wayTo := func(s fret.Shape) (fret.Swap, bool) {
		if n := slices.IndexFunc(ways, func(w fret.Swap) bool { return slices.Equal(w.To, s) }); n >= 0 {
			return ways[n], true
		}
		return wideWay(before, s, wanted)
	}
	q.read = func(text string) (given, error) {
		s, err := readShape(r.On.Tuning, text)
		if err != nil {
			return given{}, err
		}
		_, right := wayTo(s)
		g := given{id: s.String(), label: s.String(), result: rightIf(right)}
		if _, _, _, holds := fret.Finger(s); right && !holds {
			g.note = unheld(wanted)
		}
		if !right && fret.Serves(r.On.Tuning, s, wanted) {
			g.result = progress.Partly
		}
		return g, nil
	}
	q.explain = func(g given, verdict *Verdict) {
		s, err := fret.ParseShape(g.id)
		if err != nil {
			return
		}
		way, right := wayTo(s)
		if !right {
			way = easiest
			verdict.say(d.wrong(r.On, drawn, s, verdict)...)
		}
		after, err := fret.Voice(r.On.Tuning, way.To, way.Chord)
		if err != nil {
			return
		}
		verdict.say(moved(way, before, after))
		if right && !slices.Equal(way.To, easiest.To) && easiest.Effort < way.Effort {
			verdict.say(fmt.Sprintf("%s is easier to hold: move the %s string to fret %d.", easiest.To, r.On.Tuning.StringCalled(easiest.String), easiest.ToFret))
		}
		verdict.Shapes = append([]Reveal{{Caption: before.Chord.String() + ", plain", Voicing: before}}, verdict.Shapes...)
		verdict.Shapes = append(verdict.Shapes, Reveal{Caption: titled(after.Chord), Voicing: after, Mark: way.String})
		verdict.Asked = []Sound{played("plain", before, synth.Strum, nil), played("changed", after, synth.Strum, nil)}
	}
	return q, nil
}

// wideWay is a way to a chord, with all its notes, by moving one string further than a hand spans: right as well.
func wideWay(before fret.Voicing, to fret.Shape, wanted theory.Chord) (fret.Swap, bool) {
	after, err := fret.Voice(before.Tuning, to, wanted)
	if err != nil || moving(before.Shape, to) != 1 || len(after.Missing()) > 0 {
		return fret.Swap{}, false
	}
	if on := before.Tuning; on.HasBass() && lowest(on, before.Shape)%12 == wanted.Root.Class() && lowest(on, to)%12 != wanted.Root.Class() {
		return fret.Swap{}, false // the root is no longer in the bass
	}
	way := fret.Swap{From: before.Shape, To: to, Chord: wanted, Effort: math.Inf(1)}
	for i, s := range after.Strings {
		if s.Foreign {
			return fret.Swap{}, false
		}
		if from := before.Strings[i]; from.Fret != s.Fret {
			if from.Fret == fret.Muted || s.Fret == fret.Muted {
				return fret.Swap{}, false
			}
			way.String, way.FromFret, way.ToFret, way.Spare = s.Number, from.Fret, s.Fret, from.Doubled
		}
	}
	return way, true
}

// move is what tells one answer from another: the string that moves and by how many frets; and where on the neck the
// shape lies.
func move(c change) feature { return feature{position(c.From), c.String, c.ToFret - c.FromFret} }

// fewestMoves is how many answers there are at the least at a place on the neck that is asked about.
const fewestMoves = 3

// draw draws a shape with its easiest way to the colour. Where a shape lies is not to tell which string moves and how
// far: places that leave little to choose from are passed over as long as there are others, if need be further along
// the neck; and of the answers at a place, those that other colours have there as well come less often, so that none
// stands out.
func (swap) draw(r Request, plain *theory.Kind) (change, bool) {
	for reach := r.Reach; ; reach = min(1, reach+wider) {
		byMove := map[feature][]change{}
		shared := map[feature]int{} // how many colours have a move
		for _, a := range additions {
			if a.plain != plain.ID {
				continue
			}
			here := map[feature][]change{}
			for _, c := range easiestWays(r.On.changesTo(plain, a.coloured, reach)) {
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
		if len(open) == 0 {
			if reach < 1 {
				continue
			}
			open = all
		}
		moves := at(open[r.Rand.IntN(len(open))][0])
		drawn := byMove[weighted(moves, func(m feature) float64 { return 1 / float64(shared[m]) }, r.Rand)]
		return drawn[r.Rand.IntN(len(drawn))], true
	}
}

// easiestWays keeps of the changes of each shape the first, which is the easiest.
func easiestWays(changes []change) []change {
	return slices.CompactFunc(changes, func(a, b change) bool {
		return a.plain.Root == b.plain.Root && slices.Equal(a.From, b.From)
	})
}

// wrong says what a shape is that was made instead, and lets it be heard.
func (swap) wrong(on *Instrument, c change, made fret.Shape, verdict *Verdict) []string {
	var lines []string
	movedStrings := moving(made, c.From)
	switch {
	case movedStrings == 0:
		return []string{fmt.Sprintf("%s is still %s: no string has moved.", made, c.plain)}
	case movedStrings > 1:
		lines = append(lines, fmt.Sprintf("You moved %d strings; one is enough.", movedStrings))
	}
	if v, err := fret.Voice(on.Tuning, made, c.plain); err == nil {
		lines = append(lines, called(v))
	}
	for _, other := range on.changes(c.plain) {
		if slices.Equal(other.From, c.From) && slices.Equal(other.To, made) {
			verdict.TakenFor = other.Chord.Kind.ID
		}
	}
	if names := fret.Names(on.Tuning, made, theory.Context{}); len(names) > 0 {
		if heard, err := fret.Voice(on.Tuning, made, names[0].Chord); err == nil {
			verdict.Other = []Sound{played("your shape", heard, synth.Strum, nil)}
		}
	}
	return lines
}
