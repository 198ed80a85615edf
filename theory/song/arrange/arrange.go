package arrange

import (
	"cmp"
	"slices"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
	"sparetone/theory/song"
)

// Wishes is how a song is to be arranged. The zero Wishes has the easiest plain shapes on a ukulele.
type Wishes struct {
	Tuning *fret.Tuning // nil for the song's, or the ukulele where it says none
	Capoed bool         // Tuning has a capo of its own, which takes the place of the song's
	Key    *theory.Key  // nil for the song's, or the one that is found
	Rich   int          // 0, plain and as easy as can be, to 10, as rich as can be
	Fixed  []Fixed      // chords of which the shape is settled
}

// Fixed is a chord whose shape is settled.
type Fixed struct {
	Chord  theory.Chord
	Shape  fret.Shape
	OnPath bool // settled on the path that is asked for alone; the plain shape stays to be found
}

// Arrangement is a song with shapes for its chords.
type Arrangement struct {
	Song          song.Song
	Tuning        *fret.Tuning   // without the song's capo: shapes are counted from it, and chords are named as they are held
	Capoed        bool           // Tuning has a capo of its own, which takes the place of the song's
	Key           theory.Key     // of the places that say no other (KeyOf)
	KeyFound      *song.KeyFound // why this key; nil if it was said
	RunnerUp      *song.KeyFound // the next best key; nil with KeyFound
	Bars          int
	Places        []Place
	Plain, Chosen Total // of the path of plain shapes, and of the one that was asked for (Place.Path)
	Threads       []Thread
}

// Total is what a path asks in all, as the song goes round once.
type Total struct {
	Movement Movement
	Effort   float64 // added up over the chords
}

// Place is a chord where it comes in an arranged song.
type Place struct {
	song.Change
	Outside bool // the chord is not of the key
	Unheld  bool // the chord has no shape that a hand can hold: nothing is played there
	Plain   Held // on the path of plain shapes; zero where it rests
	Path    Held // on the path that was asked for; zero where it rests
	Colours []Colour
}

// Rests reports whether nothing sounds at a place.
func (p Place) Rests() bool { return p.Silent || p.Unheld }

// Uncoloured returns the plain shape beside which the path's is heard as coloured: that of which one string is moved, which need not
// be the one on the path of plain shapes. It returns that one where the path has no colour.
func (p Place) Uncoloured() Held {
	c := p.Path.Colour
	if c == nil {
		return p.Plain
	}
	fingers, barre, effort, _ := fret.Finger(c.From)
	return Held{Shape: c.From, Fingers: fingers, Barre: barre, Effort: effort, Chord: p.Chord}
}

// Unheld returns the chords of the song that have no shape on its tuning, each once.
func (a Arrangement) Unheld() (chords []theory.Chord) {
	for _, p := range a.Places {
		if p.Unheld && !slices.Contains(chords, p.Chord) {
			chords = append(chords, p.Chord)
		}
	}
	return chords
}

// Held is a shape as it is held, and what it is.
type Held struct {
	Shape   fret.Shape
	Fingers []int
	Barre   int
	Effort  float64
	Chord   theory.Chord
	Colour  *Colour // nil of a plain shape
}

const (
	plainCandidates  = 24   // plain shapes of a chord that a path may take
	colourCandidates = 16   // and colours
	mostEffort       = 12.0 // how much more than the easiest a shape may ask that a path may take
)

// Arrange finds shapes for the chords of a song.
func Arrange(s song.Song, w Wishes) (Arrangement, error) {
	a := Arrangement{Song: s, Tuning: cmp.Or(w.Tuning, s.Header.Tuning, fret.Tunings()[0]), Capoed: w.Capoed}
	changes, bars, err := song.Played(s)
	if err != nil {
		return a, err
	}
	a.Bars = bars
	var sounding []theory.Chord
	for _, c := range changes {
		a.Places = append(a.Places, Place{Change: c})
		if !c.Silent && c.Key == nil {
			sounding = append(sounding, c.Chord)
		}
	}
	a.settleKey(w.Key, sounding)
	r, err := newArranger(&a, w)
	if err != nil {
		return a, err
	}
	return a, r.arrange(w.Rich)
}

// settleKey settles the key: as it is wished, as the song says, or as it is found.
func (a *Arrangement) settleKey(wished *theory.Key, chords []theory.Chord) {
	switch {
	case wished != nil:
		a.Key = *wished
	case a.Song.Header.Key != nil:
		a.Key = *a.Song.Header.Key
	default:
		if best, next, ok := song.FindKey(chords); ok {
			a.Key, a.KeyFound, a.RunnerUp = best.Key, &best, &next
		}
	}
	for n := range a.Places {
		a.Places[n].Outside = !a.Places[n].Silent && !a.KeyOf(a.Places[n]).Holds(a.Places[n].Chord)
	}
}

// KeyOf returns the key in which a place stands.
func (a Arrangement) KeyOf(p Place) theory.Key {
	if p.Key != nil {
		return *p.Key
	}
	return a.Key
}

// Keys returns the keys of the song in the order in which they come, each as often as the song goes to it.
func (a Arrangement) Keys() []theory.Key {
	keys := []theory.Key{}
	for _, p := range a.Places {
		if k := a.KeyOf(p); !p.Silent && (len(keys) == 0 || keys[len(keys)-1] != k) {
			keys = append(keys, k)
		}
	}
	if len(keys) == 0 {
		return []theory.Key{a.Key}
	}
	return keys
}

// arranger finds shapes.
type arranger struct {
	a      *Arrangement
	chords []theory.Chord // each once
	plain  [][]candidate  // of each chord; none of one that cannot be held
	fixed  []bool
	onPath []fret.Shape // of each chord that which is settled on the path alone; nil if none is
}

// newArranger looks for the plain shapes of all chords, and marks those of which there is none. The error says which settled shape
// does not fit, or that no chord has a shape.
func newArranger(a *Arrangement, w Wishes) (*arranger, error) {
	r := &arranger{a: a}
	for _, p := range a.Places {
		if !p.Silent && !slices.Contains(r.chords, p.Chord) {
			r.chords = append(r.chords, p.Chord)
		}
	}
	for _, f := range w.Fixed {
		if !slices.ContainsFunc(r.chords, f.Is) {
			return nil, say.Wrong("{} does not come in the song", say.Chord(f.Chord))
		}
	}
	r.fixed, r.onPath = make([]bool, len(r.chords)), make([]fret.Shape, len(r.chords))
	held := false
	for n, c := range r.chords {
		if i := slices.IndexFunc(w.Fixed, func(f Fixed) bool { return f.OnPath && f.Is(c) }); i >= 0 {
			if _, err := a.settled(c, w.Fixed[i].Shape); err != nil {
				return nil, err
			}
			r.onPath[n] = w.Fixed[i].Shape
		}
		if i := slices.IndexFunc(w.Fixed, func(f Fixed) bool { return !f.OnPath && f.Is(c) }); i >= 0 {
			one, err := a.settled(c, w.Fixed[i].Shape)
			if err != nil {
				return nil, err
			}
			r.plain, r.fixed[n], held = append(r.plain, []candidate{one}), true, true
			continue
		}
		shapes := plainShapes(a.Tuning, c)
		r.plain, held = append(r.plain, shapes), held || len(shapes) > 0
	}
	if len(r.chords) > 0 && !held {
		return nil, say.Wrong("{} has no shape on {} that a hand can hold", say.Chord(r.chords[0]), say.Words(a.Tuning.Name))
	}
	for n, p := range a.Places {
		if !p.Silent && len(r.plain[slices.Index(r.chords, p.Chord)]) == 0 {
			p.Unheld, p.Plain.Chord, p.Path.Chord = true, p.Chord, p.Chord
			a.Places[n] = p
		}
	}
	return r, nil
}

// Is reports whether a chord is the one whose shape is settled, however its root is spelled.
func (f Fixed) Is(c theory.Chord) bool {
	return c.Kind == f.Chord.Kind && c.Root.Same(f.Chord.Root) && c.Bass.Same(f.Chord.Bass) && c.Without == f.Chord.Without
}

// plainShapes returns the plain shapes of a chord that a path may take.
func plainShapes(t *fret.Tuning, c theory.Chord) (out []candidate) {
	easiest := fret.Easiest(t, c, fret.DefaultHand, fret.Wish{Most: 1, Effort: 1e9, Needs: needed(t, c)})
	if len(easiest) == 0 {
		return nil
	}
	for _, f := range fret.Easiest(t, c, fret.DefaultHand, fret.Wish{Most: plainCandidates, Effort: easiest[0].Effort + mostEffort, Needs: needed(t, c)}) {
		out = append(out, candidate{grip: gripOf(f.Shape, f.Fingers), effort: hundredths(f.Effort)})
	}
	return out
}

// needed are the tones that a plain shape must sound though the chord's kind may lose them: those of a triad where there is room for
// them, also where players are taught it without its fifth.
func needed(t *fret.Tuning, c theory.Chord) []theory.Interval {
	if f := c.Kind.Formula; len(f) <= 3 && len(f) <= len(t.Strings) {
		return f
	}
	return nil
}

// Shapes returns the plain shapes of a chord that a path may take, the easiest first.
func Shapes(t *fret.Tuning, c theory.Chord) (shapes []fret.Shape) {
	for _, cand := range plainShapes(t, c) {
		shapes = append(shapes, cand.grip.shape)
	}
	return shapes
}

// settled returns a settled shape. It may be any shape that has a name on the chord's root.
func (a *Arrangement) settled(c theory.Chord, s fret.Shape) (candidate, error) {
	if err := a.Tuning.Check(s); err != nil {
		return candidate{}, err
	}
	names := fret.Names(a.Tuning, s, theory.Context{All: true, Key: &a.Key})
	if !slices.ContainsFunc(names, func(n theory.Naming) bool { return n.Chord.Root.Same(c.Root) }) && !fret.Serves(a.Tuning, s, c) {
		what := say.Of("no chord")
		if len(names) > 0 {
			what = say.Of("{}", say.Chord(names[0].Chord))
		}
		return candidate{}, say.Wrong("{} on {} is {} and not {}", say.Shape(s), say.Words(a.Tuning.Name), what, say.Chord(c))
	}
	fingers, _, effort, ok := fret.Finger(s)
	if !ok {
		return candidate{}, say.Wrong("four fingers cannot hold {}", say.Shape(s))
	}
	return candidate{grip: gripOf(s, fingers), effort: hundredths(effort)}, nil
}

// arrange finds both paths, the colours and the threads.
func (r *arranger) arrange(rich int) error {
	var at []int // the places where a chord sounds
	for n, p := range r.a.Places {
		if !p.Rests() {
			at = append(at, n)
		}
	}
	stages := make([]stage, len(at))
	for i, n := range at {
		list := slices.Index(r.chords, r.a.Places[n].Chord)
		stages[i] = stage{list, r.plain[list], list}
	}
	plain, _ := leastPath(stages, 0, true)
	for i, n := range at {
		r.a.Places[n].Plain = r.held(r.a.Places[n].Chord, &stages[i].candidates[plain[i]])
	}
	r.a.Plain = total(stages, plain)
	coloured := r.coloured(at, stages)
	chosen := plain
	if rich > 0 || slices.ContainsFunc(r.onPath, func(s fret.Shape) bool { return s != nil }) {
		stages = r.askedStages(at, stages, coloured, rich)
		chosen, _ = leastPath(stages, rich, true)
	}
	for i, n := range at {
		r.a.Places[n].Path = r.held(r.a.Places[n].Chord, &stages[i].candidates[chosen[i]])
	}
	r.a.Chosen = total(stages, chosen)
	var sounding []theory.Chord
	all := make([][]candidate, len(r.chords))
	for i := range coloured {
		list := slices.Index(r.chords, r.a.Places[at[i]].Chord)
		all[list] = append(all[list], coloured[i].candidates...)
	}
	lists := [][]candidate{}
	for n, c := range r.chords {
		if len(r.plain[n]) > 0 {
			sounding, lists = append(sounding, c), append(lists, all[n])
		}
	}
	r.a.Threads = threads(r.a.Tuning, sounding, lists)
	return nil
}

// askedStages returns the stages of the path that is asked for: those with colours, without any where nothing is to be rich, and of
// a chord whose shape is settled on the path that alone.
func (r *arranger) askedStages(at []int, plain, coloured []stage, rich int) []stage {
	out := slices.Clone(coloured)
	for i, n := range at {
		chord := slices.Index(r.chords, r.a.Places[n].Chord)
		shape := r.onPath[chord]
		switch {
		case shape == nil && rich == 0:
			out[i] = stage{-1 - plain[i].list, plain[i].candidates, chord} // a number that no coloured list has
		case shape != nil:
			one, _ := r.a.settled(r.a.Places[n].Chord, shape) // it was tried before
			for c := range r.a.Places[n].Colours {
				if colour := &r.a.Places[n].Colours[c]; slices.Equal(colour.Shape, shape) {
					one.colour = colour
				}
			}
			out[i] = stage{-1 - len(r.chords) - i, []candidate{one}, chord}
		}
	}
	return out
}

// coloured finds the colours of each place and returns the stages of the path with them.
func (r *arranger) coloured(at []int, stages []stage) []stage {
	type where struct {
		chord       int
		plain, next string
		key         theory.Key
	}
	found := map[where]int{}
	var lists [][]candidate
	var colours [][]Colour
	out := make([]stage, len(stages))
	for i, n := range at {
		p := &r.a.Places[n]
		next := r.a.Places[at[(i+1)%len(at)]].Plain.Shape
		key := where{stages[i].list, p.Plain.Shape.String(), next.String(), r.a.KeyOf(*p)}
		list, ok := found[key]
		if !ok {
			list = len(lists)
			found[key] = list
			of := Colours(r.a.Tuning, p.Chord, r.a.KeyOf(*p), p.Plain.Shape, next)
			colours = append(colours, of)
			lists = append(lists, withColours(stages[i].candidates, of, r.fixed[stages[i].list]))
		}
		p.Colours = colours[list]
		out[i] = stage{list, lists[list], stages[i].chord}
	}
	return out
}

// withColours returns the candidates of a chord with those of its colours that a path may take: the good ones. A settled shape
// stays alone.
func withColours(plain []candidate, colours []Colour, fixed bool) []candidate {
	out := slices.Clone(plain)
	for n := range colours {
		c := &colours[n]
		if fixed || !c.Good() || len(out) == len(plain)+colourCandidates {
			continue
		}
		out = append(out, candidate{gripOf(c.Shape, c.Fingers), hundredths(c.Effort), c, worth(c)})
	}
	return out
}

// What a colour is worth on the path, in hundredths of richness. From judgement.
const (
	worthOfColour = 100
	worthLessRub  = 40 // less where it rubs
	worthLessLeap = 20 // less where it does not lead on
)

// worth returns what a colour is worth.
func worth(c *Colour) int {
	w := worthOfColour
	if c.Rubbing() {
		w -= worthLessRub
	}
	if c.Leads == Leaps {
		w -= worthLessLeap
	}
	return w
}

// held returns a candidate of a chord as it is held.
func (r *arranger) held(c theory.Chord, cand *candidate) Held {
	fingers, barre, effort, _ := fret.Finger(cand.grip.shape)
	h := Held{Shape: cand.grip.shape, Fingers: fingers, Barre: barre, Effort: effort, Chord: c, Colour: cand.colour}
	if cand.colour != nil {
		h.Chord = cand.colour.Chord
	}
	return h
}

// total adds up what a path asks as the song goes round once.
func total(stages []stage, path []int) (t Total) {
	for i := range stages {
		next := (i + 1) % len(stages)
		from, to := &stages[i].candidates[path[i]], &stages[next].candidates[path[next]]
		t.Movement = t.Movement.Plus(from.grip.move(&to.grip))
		t.Effort += float64(from.effort) / 100
	}
	return t
}
