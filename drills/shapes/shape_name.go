// Package shapes has the drills about a shape on the neck: its name, its strings, what it doubles, building it, and giving it another
// note.
package shapes

import (
	"errors"
	"maps"
	"math/rand/v2"
	"slices"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/fair"
	"sparetone/drills/neck"
	"sparetone/drills/wording"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/say"
)

// Name shows a fret shape and asks for its name.
type Name struct{}

func (Name) About() drills.About {
	return drills.About{ID: "shape-name", Title: "Name a shape by sight", ByHeart: true}
}

func (Name) Targets(on *neck.Instrument) []drills.Target { return drills.KindTargets(on) }

func (Name) Rungs(string) []drills.Rung { return drills.ShapeRungs }

// Ask offers two roots with two kinds each, so that neither the roots nor the kinds among the choices
// tell which is right; and both roots have a shape of both kinds at the same place on the neck.
func (d Name) Ask(r drills.Request) (*drills.Question, error) {
	kinds, err := fair.Pick(d.Targets(r.On), r, chord.Clash)
	if err != nil {
		return nil, err
	}
	kinds = r.Settle(two(kinds, r))
	h, offer := d.amongHeld(r, kinds)
	if offer == nil {
		h, offer = d.firstMet(r, kinds)
	}
	if offer == nil {
		if h, offer, err = d.anywhere(r, kinds); err != nil {
			return nil, err
		}
	}
	v, err := h.Voice(r.On)
	if err != nil {
		return nil, err
	}
	shapes := offer(v)
	r.Rand.Shuffle(len(shapes), func(i, j int) { shapes[i], shapes[j] = shapes[j], shapes[i] })
	voice := r.Voice()
	var chords []theory.Chord
	for _, h := range shapes {
		chords = append(chords, h.Chord)
	}
	about := func(v fret.Voicing) *drills.Question {
		q := d.which(r.On, v, chords)
		q.Voice = voice
		if r.Turned() {
			q.Prompt = askTurned
		}
		return q
	}
	var each []fret.Voicing
	if r.First || r.New() { // its name is known by heart, or shown before it
		for _, k := range d.Targets(r.On) {
			for _, h := range shapes {
				if other, err := h.Voice(r.On); err == nil && h.Chord.Kind.ID == k.ID {
					each = append(each, other)
				}
			}
		}
	}
	return insteadOf(v, each, about).KnownByHeart(r), nil
}

// which asks which of some chords a shape is.
func (d Name) which(on *neck.Instrument, v fret.Voicing, chords []theory.Chord) *drills.Question {
	names := chord.RightNames(v)
	q := &drills.Question{
		Drill:  d.About().ID,
		Target: v.Chord.Kind.ID,
		Prompt: askChord,
		Shown:  &v,
	}
	var offered []drills.Choice
	for _, c := range chords {
		offered = append(offered, chordChoice(c))
	}
	q.Offer(theory.NewChord(v.Chord.Root, v.Chord.Kind).Symbol(), offered...)
	for _, n := range names {
		if s := (theory.Chord{Root: n.Root, Kind: n.Kind, Bass: n.Root}).Symbol(); s != q.Expected().Typed {
			q.Accepts = append(q.Accepts, s)
		}
	}
	q.Answers = drills.Answers[theory.Chord]{
		Offered: chords,
		Read: func(text string) (theory.Chord, error) {
			c, err := read.Chord(text)
			if symbol := (*read.SymbolError)(nil); errors.As(err, &symbol) {
				return c, drills.ErrUnread
			}
			return c, err
		},
		Mark: func(c theory.Chord) drills.Given {
			g := drills.Given{ID: c.Symbol(), Said: wording.InFull(c), Result: drills.RightIf(chord.IsNamed(names, c))}
			if g.Right() && (!c.Root.Same(v.Chord.Root) || c.Kind != v.Chord.Kind) {
				g.Note = sayAnotherName(c)
			}
			return g
		},
		Explain: func(c theory.Chord, g drills.Given, verdict *drills.Verdict) {
			others := chord.NamesBeside(names, v.Chord)
			verdict.Shapes = []drills.Reveal{{Caption: wording.Named(v.Chord, others), Voicing: v}}
			verdict.Asked = []drills.Sound{drills.Played(say.Text{}, v, synth.Strum)}
			verdict.Short = wording.IsNotes(v)
			if len(others) > 0 {
				verdict.Short = wording.AlsoCalled(others)
				verdict.Say(verdict.Short)
			}
			if !g.Right() {
				verdict.TakenFor = c.Kind.ID
				lines := lacking(v, c)
				if c.Root.Same(v.Chord.Root) && c.Kind != v.Chord.Kind {
					lines = wording.Sentences(wording.Differences(v, c.Kind))
				}
				verdict.Say(lines...)
				if len(lines) > 0 { // its other names stand above the shape
					verdict.Short = lines[0]
				}
				if near, ok := neck.NearestShape(on, chord.TurnedAs(c, v.Chord), v.Shape); ok {
					verdict.Show(wording.Titled(near.Chord), near)
					verdict.Other = []drills.Sound{drills.Played(wording.Titled(near.Chord), near, synth.Strum)}
					verdict.SetContrast()
				}
			}
			verdict.Say(wording.Tones(v), wording.LeftOut(v))
		},
	}
	return q
}

// loneShare is how often a shape is shown first that nothing of the other kind looks like, as C on the ukulele, which lies
// at a place of its own, told from what has its number of strings; and as often again, told from what lies at its place. The one
// tells by the place and the other by the strings which of them it is, so they come seldom.
const loneShare = 0.03

// firstMet picks a shape from those that players meet first, and what it is told from: as many chords of either kind, all of
// which look alike, picked before it is picked which of them is shown. So neither the look nor a name tells. It returns no offer
// if what is asked for is not new, or no two of either kind that are met first look alike.
func (Name) firstMet(r drills.Request, kinds []drills.Target) (h neck.Held, offer func(fret.Voicing) []neck.Held) {
	if !r.New() {
		return neck.Held{}, nil
	}
	var groups looks
	widening := []func(neck.Taught) []neck.Held{neck.Taught.FirstOnly, neck.Taught.Few, neck.Taught.All}
	if !r.First {
		widening = widening[:1] // else, where none of them look alike, a grid of four is better
	}
	for _, known := range widening {
		var met [2][]neck.Held
		for n, k := range kinds {
			met[n] = known(r.On.TaughtShapes(chord.Kind(k.ID)))
		}
		if groups = byLook(met); len(groups.together) > 0 {
			break
		}
	}
	if len(groups.together) == 0 {
		return neck.Held{}, nil
	}
	const outOf = 1000
	each, share := int(loneShare*outOf), r.Toss(0, outOf)
	var picked [2][]neck.Held
	switch {
	case share < each && len(groups.strings) > 0:
		picked = groups.strings[r.Toss(1, len(groups.strings))]
	case share >= outOf-each && len(groups.places) > 0:
		picked = groups.places[r.Toss(1, len(groups.places))]
	default:
		picked = tossLook(&r, groups.together)
	}
	for n := range picked {
		picked[n] = unlikeSounds(picked[n], r.Rand)
	}
	few := min(len(picked[0]), len(picked[1]), 2)
	if r.First {
		few = 1
	}
	for n := range picked {
		picked[n] = fair.SomeOf(picked[n], few, r.Rand)
	}
	h = picked[drills.IndexOf(kinds, r.Target)][r.Rand.IntN(few)]
	return h, func(fret.Voicing) []neck.Held { return slices.Concat(picked[0], picked[1]) }
}

// unlikeSounds picks of shapes of one kind those of which no two sound alike, as augmented chords on several roots do.
func unlikeSounds(shapes []neck.Held, rng *rand.Rand) []neck.Held {
	var out []neck.Held
	for _, n := range rng.Perm(len(shapes)) {
		h := shapes[n]
		if !slices.ContainsFunc(out, func(o neck.Held) bool { return chord.SameSound(h.Chord.Kind, h.Chord.Root, o.Chord.Root) }) {
			out = append(out, h)
		}
	}
	return out
}

// tossLook picks a look, each as often as it has many shapes.
func tossLook(r *drills.Request, looks [][2][]neck.Held) [2][]neck.Held {
	var each [][2][]neck.Held
	for _, at := range looks {
		for range len(at[0]) + len(at[1]) {
			each = append(each, at)
		}
	}
	return each[r.Toss(1, len(each))]
}

// looks groups shapes of two kinds.
type looks struct {
	together [][2][]neck.Held // those of both kinds that look alike
	strings  [][2][]neck.Held // each that looks like none of the other kind, with those of that kind that sound as many strings
	places   [][2][]neck.Held // the same with those that lie at the same place
}

// byLook groups shapes of two kinds by how many strings sound and where on the neck they lie.
func byLook(met [2][]neck.Held) (out looks) {
	at := map[fair.Feature]*[2][]neck.Held{}
	for n, list := range met {
		for _, h := range list {
			if at[fair.Seen(h)] == nil {
				at[fair.Seen(h)] = &[2][]neck.Held{}
			}
			at[fair.Seen(h)][n] = append(at[fair.Seen(h)][n], h)
		}
	}
	for _, look := range slices.SortedFunc(maps.Keys(at), func(a, b fair.Feature) int { return slices.Compare(a[:], b[:]) }) {
		both := *at[look]
		if len(both[0]) > 0 && len(both[1]) > 0 {
			out.together = append(out.together, both)
			continue
		}
		for n := range both {
			for _, h := range both[n] {
				alone := func(like func(neck.Held) bool) (set [2][]neck.Held, ok bool) {
					set[n] = []neck.Held{h}
					for _, o := range met[1-n] {
						if like(o) {
							set[1-n] = append(set[1-n], o)
						}
					}
					return set, len(set[1-n]) > 0
				}
				if set, ok := alone(func(o neck.Held) bool { return neck.Sounding(o.Shape) == neck.Sounding(h.Shape) }); ok {
					out.strings = append(out.strings, set)
				}
				if set, ok := alone(func(o neck.Held) bool { return neck.LowestFret(o.Shape) == neck.LowestFret(h.Shape) }); ok {
					out.places = append(out.places, set)
				}
			}
		}
	}
	return out
}

// anywhere picks a shape from those within the student's reach, and what it is told from.
func (Name) anywhere(r drills.Request, kinds []drills.Target) (h neck.Held, offer func(fret.Voicing) []neck.Held, err error) {
	right := drills.IndexOf(kinds, r.Target)
	var picked [][]neck.Held // what the shape is picked from
	h, ok := fair.Match(r, right, func(reach float64) [][]neck.Held {
		picked = onTwoRoots(r.ShapesOfEach(kinds, reach))
		return picked
	}, fair.Seen)
	if !ok {
		h, ok = fair.Match(r, right, func(reach float64) [][]neck.Held {
			picked = r.ShapesOfEach(kinds, reach)
			return picked
		}, fair.Seen)
	}
	if !ok {
		return neck.Held{}, nil, neck.NoShape(r.On, chord.Kind(r.Target))
	}
	h = onAnyRoot(h, picked[right], r.Rand)
	h.Chord = chord.TurnedAs(theory.NewChord(commonRoot(h.Chord.Root, h.Chord.Kind, kinds), h.Chord.Kind), h.Chord)
	return h, func(v fret.Voicing) []neck.Held {
		var out []neck.Held
		for _, c := range grid(kinds, v, picked[right], r.Rand) {
			out = append(out, shapeLike(r.On, c, v, slices.Concat(picked...)))
		}
		if r.First { // the one that is asked, and one of the other kind on the other root
			out = slices.DeleteFunc(out, func(h neck.Held) bool { return (h.Chord.Kind == v.Chord.Kind) != h.Chord.Root.Same(v.Chord.Root) })
		}
		return out
	}, nil
}

// shapeLike returns a shape of a chord that looks as a voicing does, of those that are known; of a chord that has none, its easiest.
func shapeLike(on *neck.Instrument, c theory.Chord, v fret.Voicing, known []neck.Held) neck.Held {
	if c == v.Chord {
		return neck.Held{Chord: c, Shape: v.Shape}
	}
	for _, h := range slices.Concat(known, on.Shapes(c)) {
		if h.Chord.Kind == c.Kind && h.Chord.Root.Same(c.Root) && fair.Seen(h) == fair.SeenVoicing(v) {
			return neck.Held{Chord: c, Shape: h.Shape}
		}
	}
	if easiest := on.Shapes(c); len(easiest) > 0 {
		return neck.Held{Chord: c, Shape: easiest[0].Shape}
	}
	return neck.Held{Chord: c}
}

// two keeps two of the choices: the one asked for and the one it is set against, or another.
func two(choices []drills.Target, r drills.Request) []drills.Target {
	if len(choices) == 2 {
		return choices
	}
	other := r.Against
	if other == r.Target || !drills.IsTarget(choices, other) {
		rest := slices.DeleteFunc(slices.Clone(choices), func(t drills.Target) bool { return t.ID == r.Target })
		other = rest[r.Rand.IntN(len(rest))].ID
	}
	return slices.DeleteFunc(slices.Clone(choices), func(t drills.Target) bool { return t.ID != r.Target && t.ID != other })
}

// chordChoice is how a chord is offered as an answer.
func chordChoice(c theory.Chord) drills.Choice {
	return drills.Choice{ID: c.Symbol(), Said: wording.InFull(c), Typed: c.Symbol()}
}

// onTwoRoots keeps the shapes that lie where two roots or more have a shape of every kind, and those roots.
func onTwoRoots(options [][]neck.Held) [][]neck.Held {
	type spot struct {
		place fair.Feature
		root  int
	}
	at := func(h neck.Held) spot { return spot{fair.Seen(h), h.Chord.Root.Class()} }
	kinds := map[spot]int{}
	for n, list := range options {
		for _, h := range list {
			kinds[at(h)] |= 1 << n
		}
	}
	all := 1<<len(options) - 1
	roots := map[fair.Feature]int{}
	for where, has := range kinds {
		if has == all {
			roots[where.place]++
		}
	}
	out := make([][]neck.Held, len(options))
	for n, list := range options {
		for _, h := range list {
			if kinds[at(h)] == all && roots[fair.Seen(h)] > 1 {
				out[n] = append(out[n], h)
			}
		}
	}
	return out
}

// onAnyRoot picks a root among the shapes that lie where one lies, and then one of its shapes: a root with more
// shapes there is no likelier.
func onAnyRoot(like neck.Held, all []neck.Held, rng *rand.Rand) neck.Held {
	byRoot := map[int][]neck.Held{}
	for _, h := range all {
		if fair.Seen(h) == fair.Seen(like) {
			byRoot[h.Chord.Root.Class()] = append(byRoot[h.Chord.Root.Class()], h)
		}
	}
	classes := slices.Sorted(maps.Keys(byRoot))
	shapes := byRoot[classes[rng.IntN(len(classes))]]
	return shapes[rng.IntN(len(shapes))]
}

// commonRoot returns how the root of a chord of a kind is written among choices of several: as the others on that
// root are, F♯ and not G♭ beside it, unless one of them would then have more notes that nobody likes to read.
func commonRoot(root theory.Note, k *theory.Kind, choices []drills.Target) theory.Note {
	var kinds []*theory.Kind
	for _, c := range choices {
		kinds = append(kinds, chord.Kind(c.ID))
	}
	common := chord.WrittenAs(root, chord.RootsOf(kinds...))
	for _, of := range kinds {
		if odd(common, of) > odd(chord.WrittenAs(root, chord.RootsOf(of)), of) {
			return chord.WrittenAs(root, chord.RootsOf(k))
		}
	}
	return common
}

// odd counts the notes of a chord that are written as nobody likes to read them.
func odd(root theory.Note, k *theory.Kind) int {
	n := 0
	for _, tone := range theory.NewChord(root, k).Tones() {
		if chord.IsOdd(tone) {
			n++
		}
	}
	return n
}

// grid returns the chords of two kinds on two roots: that of what is shown, and another root that has a shape of
// the same kind at the same place. No two of a kind sound alike, as augmented chords on several roots do.
func grid(choices []drills.Target, v fret.Voicing, alike []neck.Held, rng *rand.Rand) []theory.Chord {
	kinds := []*theory.Kind{chord.Kind(choices[0].ID), chord.Kind(choices[1].ID)}
	differs := func(root theory.Note) bool {
		return !root.Same(v.Chord.Root) && !slices.ContainsFunc(kinds, func(k *theory.Kind) bool { return chord.SameSound(k, root, v.Chord.Root) })
	}
	var others []theory.Note
	for _, o := range alike {
		if root := o.Chord.Root; fair.Seen(o) == fair.SeenVoicing(v) && differs(root) && !slices.Contains(others, root) {
			others = append(others, root)
		}
	}
	if len(others) == 0 {
		others = slices.DeleteFunc(slices.Clone(chord.Roots), func(root theory.Note) bool { return !differs(root) })
	}
	second := others[rng.IntN(len(others))]
	var out []theory.Chord
	for _, k := range kinds {
		for _, root := range chord.Roots {
			if root.Same(v.Chord.Root) || root.Same(second) {
				out = append(out, theory.NewChord(commonRoot(root, k, choices), k))
			}
		}
	}
	return out
}

// lacking says which of a chord's tones a voicing does not sound, and which of its notes are none of
// them.
func lacking(v fret.Voicing, c theory.Chord) []say.Text {
	var missing []theory.Interval
	var foreign []theory.Note
	for _, tone := range c.Kind.Formula {
		n := c.Root.Up(tone)
		if !slices.ContainsFunc(v.Pitches(), func(p theory.Pitch) bool { return p.Same(n) }) && !slices.Contains(c.Kind.Omit, tone) {
			missing = append(missing, tone)
		}
	}
	for _, p := range v.Pitches() {
		if note := chord.Plainly(p.Note); chord.IsForeign(c, p.Note) && !slices.Contains(foreign, note) {
			foreign = append(foreign, note)
		}
	}
	var lines []say.Text
	if len(missing) > 0 {
		lines = append(lines, sayNeeds(c, missing))
	}
	if len(foreign) > 0 {
		lines = append(lines, wording.NotIn(c, foreign))
	}
	return lines
}

// amongHeld picks a shape among those that may be asked, and offers the names of others that may be; of a lone chord the kinds that
// it may be taken for. It returns no offer where nothing is held back.
func (Name) amongHeld(r drills.Request, kinds []drills.Target) (h neck.Held, offer func(fret.Voicing) []neck.Held) {
	if !r.On.IsHeldToChords() {
		return neck.Held{}, nil
	}
	all := r.On.ShapesOf(chord.Kind(r.Target), r.Reach)
	if len(all) == 0 {
		return neck.Held{}, nil
	}
	h = all[r.Rand.IntN(len(all))]
	return h, func(v fret.Voicing) []neck.Held {
		chords := []theory.Chord{v.Chord}
		if others := r.On.HeldNames(v); len(others) > 0 {
			chords = append(chords, fair.SomeOf(others, mostHeldNames-1, r.Rand)...)
		} else {
			for _, k := range kinds {
				if k.ID != r.Target {
					chords = append(chords, theory.NewChord(v.Chord.Root, chord.Kind(k.ID)))
				}
			}
		}
		out := make([]neck.Held, len(chords))
		for n, c := range chords {
			out[n] = shapeLike(r.On, c, v, all)
		}
		return out
	}
}

// mostHeldNames is how many chords stand among names to choose from where chords are held to.
const mostHeldNames = 4
