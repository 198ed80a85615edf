package drills

import (
	"errors"
	"maps"
	"math/rand/v2"
	"slices"

	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/say"
)

// shapeName shows a fret shape and asks for its name.
type shapeName struct{}

func (shapeName) About() About {
	return About{ID: "shape-name", Title: "Name a shape by sight", ByHeart: true}
}

func (shapeName) Targets(on *Instrument) []Target { return kindTargets(on) }

// Ask offers two roots with two kinds each, so that neither the roots nor the kinds among the choices
// tell which is right; and both roots have a shape of both kinds at the same place on the neck.
func (d shapeName) Ask(r Request) (*Question, error) {
	kinds, err := pick(d.Targets(r.On), r, kindsClash)
	if err != nil {
		return nil, err
	}
	kinds = r.settle(two(kinds, r))
	h, offer := d.amongHeld(r, kinds)
	if offer == nil {
		h, offer = d.firstMet(r, kinds)
	}
	if offer == nil {
		if h, offer, err = d.anywhere(r, kinds); err != nil {
			return nil, err
		}
	}
	v, err := h.voice(r.On)
	if err != nil {
		return nil, err
	}
	shapes := offer(v)
	r.Rand.Shuffle(len(shapes), func(i, j int) { shapes[i], shapes[j] = shapes[j], shapes[i] })
	voice := r.voice()
	var chords []theory.Chord
	for _, h := range shapes {
		chords = append(chords, h.chord)
	}
	about := func(v fret.Voicing) *Question {
		q := d.which(r.On, v, chords)
		q.Voice = voice
		return q
	}
	var each []fret.Voicing
	if r.First || r.New() { // its name is known by heart, or shown before it
		for _, k := range d.Targets(r.On) {
			for _, h := range shapes {
				if other, err := h.voice(r.On); err == nil && h.chord.Kind.ID == k.ID {
					each = append(each, other)
				}
			}
		}
	}
	return insteadOf(v, each, about).knownByHeart(r), nil
}

// which asks which of some chords a shape is.
func (d shapeName) which(on *Instrument, v fret.Voicing, chords []theory.Chord) *Question {
	names := rightNames(v)
	q := &Question{
		Drill:  d.About().ID,
		Target: v.Chord.Kind.ID,
		Prompt: askChord,
		Shown:  &v,
	}
	var offered []Choice
	for _, c := range chords {
		offered = append(offered, chordChoice(c))
	}
	q.offer(v.Chord.Symbol(), offered...)
	for _, n := range names {
		if s := (theory.Chord{Root: n.Root, Kind: n.Kind, Bass: n.Root}).Symbol(); s != q.expected.Typed {
			q.Accepts = append(q.Accepts, s)
		}
	}
	q.answers = answers[theory.Chord]{
		offered: chords,
		read: func(text string) (theory.Chord, error) {
			c, err := read.Chord(text)
			if symbol := (*read.SymbolError)(nil); errors.As(err, &symbol) {
				return c, errUnread
			}
			return c, err
		},
		mark: func(c theory.Chord) given {
			g := given{id: c.Symbol(), said: sayInFull(c), result: rightIf(isNamed(names, c))}
			if g.right() && (!c.Root.Same(v.Chord.Root) || c.Kind != v.Chord.Kind) {
				g.note = sayAnotherName(c)
			}
			return g
		},
		explain: func(c theory.Chord, g given, verdict *Verdict) {
			others := namesBeside(names, v.Chord)
			verdict.Shapes = []Reveal{{Caption: sayNamed(v.Chord, others), Voicing: v}}
			verdict.Asked = []Sound{played(say.Text{}, v, synth.Strum)}
			verdict.Short = sayIsNotes(v)
			if len(others) > 0 {
				verdict.Short = sayAlsoCalled(others)
				verdict.say(verdict.Short)
			}
			if !g.right() {
				verdict.TakenFor = c.Kind.ID
				lines := lacking(v, c)
				if c.Root.Same(v.Chord.Root) && c.Kind != v.Chord.Kind {
					lines = sentences(differ(v, c.Kind))
				}
				verdict.say(lines...)
				if len(lines) > 0 && len(others) == 0 {
					verdict.Short = lines[0]
				}
				if near, ok := nearestShape(on, c, v.Shape); ok {
					verdict.shows(sayTitled(c), near)
					verdict.Other = []Sound{played(sayTitled(c), near, synth.Strum)}
					verdict.against()
				}
			}
			verdict.say(sayTones(v), sayLeftOut(v))
		},
	}
	return q
}

// namesBeside are the other right names of a shape that is called by one of them, their roots written as the notes of that one are.
func namesBeside(names []theory.Chord, c theory.Chord) []theory.Chord {
	var out []theory.Chord
	for _, n := range names {
		if n.Root.Same(c.Root) && n.Kind == c.Kind || slices.ContainsFunc(out, func(o theory.Chord) bool { return o.Root.Same(n.Root) && o.Kind == n.Kind }) {
			continue
		}
		root := n.Root
		if i := slices.IndexFunc(c.Tones(), root.Same); i >= 0 && !oddlyWritten(theory.NewChord(c.Tones()[i], n.Kind)) {
			root = c.Tones()[i]
		}
		out = append(out, theory.NewChord(root, n.Kind))
	}
	return out
}

// loneShare is how often a shape is shown first that nothing of the other kind looks like, as C on the ukulele, which lies
// at a place of its own, told from what has its number of strings; and as often again, told from what lies at its place. The one
// tells by the place and the other by the strings which of them it is, so they come seldom.
const loneShare = 0.03

// firstMet picks a shape from those that players meet first, and what it is told from: as many chords of either kind, all of
// which look alike, picked before it is picked which of them is shown. So neither the look nor a name tells. It returns no offer
// if what is asked for is not new, or no two of either kind that are met first look alike.
func (shapeName) firstMet(r Request, kinds []Target) (h held, offer func(fret.Voicing) []held) {
	if !r.New() {
		return held{}, nil
	}
	var groups looks
	widening := []func(taught) []held{taught.firstOnly, taught.few, taught.all}
	if !r.First {
		widening = widening[:1] // else, where none of them look alike, a grid of four is better
	}
	for _, known := range widening {
		var met [2][]held
		for n, k := range kinds {
			met[n] = known(r.On.taughtShapes(mustKind(k.ID)))
		}
		if groups = byLook(met); len(groups.together) > 0 {
			break
		}
	}
	if len(groups.together) == 0 {
		return held{}, nil
	}
	const outOf = 1000
	each, share := int(loneShare*outOf), r.toss(0, outOf)
	var picked [2][]held
	switch {
	case share < each && len(groups.strings) > 0:
		picked = groups.strings[r.toss(1, len(groups.strings))]
	case share >= outOf-each && len(groups.places) > 0:
		picked = groups.places[r.toss(1, len(groups.places))]
	default:
		picked = r.tossLook(groups.together)
	}
	for n := range picked {
		picked[n] = unlikeSounds(picked[n], r.Rand)
	}
	few := min(len(picked[0]), len(picked[1]), 2)
	if r.First {
		few = 1
	}
	for n := range picked {
		picked[n] = someOf(picked[n], few, r.Rand)
	}
	h = picked[indexOf(kinds, r.Target)][r.Rand.IntN(few)]
	return h, func(fret.Voicing) []held { return slices.Concat(picked[0], picked[1]) }
}

// unlikeSounds picks of shapes of one kind those of which no two sound alike, as augmented chords on several roots do.
func unlikeSounds(shapes []held, rng *rand.Rand) []held {
	var out []held
	for _, n := range rng.Perm(len(shapes)) {
		h := shapes[n]
		if !slices.ContainsFunc(out, func(o held) bool { return sameSound(h.chord.Kind, h.chord.Root, o.chord.Root) }) {
			out = append(out, h)
		}
	}
	return out
}

// tossLook picks a look, each as often as it has many shapes.
func (r *Request) tossLook(looks [][2][]held) [2][]held {
	var each [][2][]held
	for _, at := range looks {
		for range len(at[0]) + len(at[1]) {
			each = append(each, at)
		}
	}
	return each[r.toss(1, len(each))]
}

// looks groups shapes of two kinds.
type looks struct {
	together [][2][]held // those of both kinds that look alike
	strings  [][2][]held // each that looks like none of the other kind, with those of that kind that sound as many strings
	places   [][2][]held // the same with those that lie at the same place
}

// byLook groups shapes of two kinds by how many strings sound and where on the neck they lie.
func byLook(met [2][]held) (out looks) {
	at := map[feature]*[2][]held{}
	for n, list := range met {
		for _, h := range list {
			if at[seen(h)] == nil {
				at[seen(h)] = &[2][]held{}
			}
			at[seen(h)][n] = append(at[seen(h)][n], h)
		}
	}
	for _, look := range slices.SortedFunc(maps.Keys(at), func(a, b feature) int { return slices.Compare(a[:], b[:]) }) {
		both := *at[look]
		if len(both[0]) > 0 && len(both[1]) > 0 {
			out.together = append(out.together, both)
			continue
		}
		for n := range both {
			for _, h := range both[n] {
				alone := func(like func(held) bool) (set [2][]held, ok bool) {
					set[n] = []held{h}
					for _, o := range met[1-n] {
						if like(o) {
							set[1-n] = append(set[1-n], o)
						}
					}
					return set, len(set[1-n]) > 0
				}
				if set, ok := alone(func(o held) bool { return sounding(o.shape) == sounding(h.shape) }); ok {
					out.strings = append(out.strings, set)
				}
				if set, ok := alone(func(o held) bool { return position(o.shape) == position(h.shape) }); ok {
					out.places = append(out.places, set)
				}
			}
		}
	}
	return out
}

// anywhere picks a shape from those within the student's reach, and what it is told from.
func (shapeName) anywhere(r Request, kinds []Target) (h held, offer func(fret.Voicing) []held, err error) {
	right := indexOf(kinds, r.Target)
	var picked [][]held // what the shape is picked from
	h, ok := match(r, right, func(reach float64) [][]held {
		picked = onTwoRoots(r.On.shapesOfEach(kinds, reach))
		return picked
	}, seen)
	if !ok {
		h, ok = match(r, right, func(reach float64) [][]held {
			picked = r.On.shapesOfEach(kinds, reach)
			return picked
		}, seen)
	}
	if !ok {
		return held{}, nil, noShape(r.On, mustKind(r.Target))
	}
	h = onAnyRoot(h, picked[right], r.Rand)
	h.chord = theory.NewChord(commonRoot(h.chord.Root, h.chord.Kind, kinds), h.chord.Kind)
	return h, func(v fret.Voicing) []held {
		var out []held
		for _, c := range grid(kinds, v, picked[right], r.Rand) {
			out = append(out, r.On.shapeLike(c, v, slices.Concat(picked...)))
		}
		if r.First { // the one that is asked, and one of the other kind on the other root
			out = slices.DeleteFunc(out, func(h held) bool { return (h.chord.Kind == v.Chord.Kind) != h.chord.Root.Same(v.Chord.Root) })
		}
		return out
	}, nil
}

// shapeLike returns a shape of a chord that looks as a voicing does, of those that are known; of a chord that has none, its easiest.
func (i *Instrument) shapeLike(c theory.Chord, v fret.Voicing, known []held) held {
	if c == v.Chord {
		return held{chord: c, shape: v.Shape}
	}
	for _, h := range slices.Concat(known, i.shapes(c)) {
		if h.chord.Kind == c.Kind && h.chord.Root.Same(c.Root) && seen(h) == seenVoicing(v) {
			return held{chord: c, shape: h.shape}
		}
	}
	if easiest := i.shapes(c); len(easiest) > 0 {
		return held{chord: c, shape: easiest[0].shape}
	}
	return held{chord: c}
}

// two keeps two of the choices: the one asked for and the one it is set against, or another.
func two(choices []Target, r Request) []Target {
	if len(choices) == 2 {
		return choices
	}
	other := r.Against
	if other == r.Target || !isTarget(choices, other) {
		rest := slices.DeleteFunc(slices.Clone(choices), func(t Target) bool { return t.ID == r.Target })
		other = rest[r.Rand.IntN(len(rest))].ID
	}
	return slices.DeleteFunc(slices.Clone(choices), func(t Target) bool { return t.ID != r.Target && t.ID != other })
}

// chordChoice is how a chord is offered as an answer.
func chordChoice(c theory.Chord) Choice {
	return Choice{ID: c.Symbol(), Said: sayInFull(c), Typed: c.Symbol()}
}

// onTwoRoots keeps the shapes that lie where two roots or more have a shape of every kind, and those roots.
func onTwoRoots(options [][]held) [][]held {
	type spot struct {
		place feature
		root  int
	}
	at := func(h held) spot { return spot{seen(h), h.chord.Root.Class()} }
	kinds := map[spot]int{}
	for n, list := range options {
		for _, h := range list {
			kinds[at(h)] |= 1 << n
		}
	}
	all := 1<<len(options) - 1
	roots := map[feature]int{}
	for where, has := range kinds {
		if has == all {
			roots[where.place]++
		}
	}
	out := make([][]held, len(options))
	for n, list := range options {
		for _, h := range list {
			if kinds[at(h)] == all && roots[seen(h)] > 1 {
				out[n] = append(out[n], h)
			}
		}
	}
	return out
}

// onAnyRoot picks a root among the shapes that lie where one lies, and then one of its shapes: a root with more
// shapes there is no likelier.
func onAnyRoot(like held, all []held, rng *rand.Rand) held {
	byRoot := map[int][]held{}
	for _, h := range all {
		if seen(h) == seen(like) {
			byRoot[h.chord.Root.Class()] = append(byRoot[h.chord.Root.Class()], h)
		}
	}
	classes := slices.Sorted(maps.Keys(byRoot))
	shapes := byRoot[classes[rng.IntN(len(classes))]]
	return shapes[rng.IntN(len(shapes))]
}

// commonRoot returns how the root of a chord of a kind is written among choices of several: as the others on that
// root are, F♯ and not G♭ beside it, unless one of them would then have more notes that nobody likes to read.
func commonRoot(root theory.Note, k *theory.Kind, choices []Target) theory.Note {
	var kinds []*theory.Kind
	for _, c := range choices {
		kinds = append(kinds, mustKind(c.ID))
	}
	common := writtenAs(root, rootsOf(kinds...))
	for _, of := range kinds {
		if odd(common, of) > odd(writtenAs(root, rootsOf(of)), of) {
			return writtenAs(root, rootsOf(k))
		}
	}
	return common
}

// odd counts the notes of a chord that are written as nobody likes to read them.
func odd(root theory.Note, k *theory.Kind) int {
	n := 0
	for _, tone := range theory.NewChord(root, k).Tones() {
		if isOdd(tone) {
			n++
		}
	}
	return n
}

// grid returns the chords of two kinds on two roots: that of what is shown, and another root that has a shape of
// the same kind at the same place. No two of a kind sound alike, as augmented chords on several roots do.
func grid(choices []Target, v fret.Voicing, alike []held, rng *rand.Rand) []theory.Chord {
	kinds := []*theory.Kind{mustKind(choices[0].ID), mustKind(choices[1].ID)}
	differs := func(root theory.Note) bool {
		return !root.Same(v.Chord.Root) && !slices.ContainsFunc(kinds, func(k *theory.Kind) bool { return sameSound(k, root, v.Chord.Root) })
	}
	var others []theory.Note
	for _, o := range alike {
		if root := o.chord.Root; seen(o) == seenVoicing(v) && differs(root) && !slices.Contains(others, root) {
			others = append(others, root)
		}
	}
	if len(others) == 0 {
		others = slices.DeleteFunc(slices.Clone(roots), func(root theory.Note) bool { return !differs(root) })
	}
	second := others[rng.IntN(len(others))]
	var out []theory.Chord
	for _, k := range kinds {
		for _, root := range roots {
			if root.Same(v.Chord.Root) || root.Same(second) {
				out = append(out, theory.NewChord(commonRoot(root, k, choices), k))
			}
		}
	}
	return out
}

// sameSound reports whether chords of a kind on two roots have the same notes.
func sameSound(k *theory.Kind, a, b theory.Note) bool {
	set, up := toneSet(k, nil), (b.Class()-a.Class()+12)%12
	return set == (set<<up|set>>(12-up))&0xfff
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
		if note := plainly(p.Note); foreignTo(c, p.Note) && !slices.Contains(foreign, note) {
			foreign = append(foreign, note)
		}
	}
	var lines []say.Text
	if len(missing) > 0 {
		lines = append(lines, sayNeeds(c, missing))
	}
	if len(foreign) > 0 {
		lines = append(lines, sayNotIn(c, foreign))
	}
	return lines
}
