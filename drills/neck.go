package drills

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"sync"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// neck keeps what was found on an instrument's neck, so that each chord is searched once.
type neck struct {
	lock    sync.Mutex
	shapes  map[theory.Chord][]held
	swaps   map[theory.Chord][]change // by the plain chord
	swapsTo map[recolouring][]change
	leads   map[theory.Chord][]resolved
	goals   map[theory.Chord][]fret.Voicing // every shape of a triad that a hand can hold
	taught  map[*theory.Kind]taught
}

// recolouring is a plain chord and the kind, by its id, that it becomes.
type recolouring struct {
	plain    theory.Chord
	coloured string
}

// taught is the textbook's shapes of a kind of chord: those that players meet before any other, and the rest, the easiest
// first.
type taught struct{ first, later []held }

// firstOnly are those that players meet before any other.
func (t taught) firstOnly() []held { return t.first }

// few are those and, if there are fewer than fewestFirst, the easiest of the others.
func (t taught) few() []held {
	return slices.Concat(t.first, t.later[:min(len(t.later), max(0, fewestFirst-len(t.first)))])
}

// all are all that are taught.
func (t taught) all() []held { return slices.Concat(t.first, t.later) }

// held is a shape of a chord that a hand can hold.
type held struct {
	chord  theory.Chord
	shape  fret.Shape
	effort float64
}

// change is a plain shape that becomes a coloured one by moving one string.
type change struct {
	plain theory.Chord
	fret.Swap
}

// roots are the roots that questions draw from: each pitch class as its chords are mostly written
// (common practice, no source).
var roots = notes("C Db D Eb E F F# G Ab A Bb B")

// rootsOf returns the roots that chords of some kinds are asked on: each pitch class, written so that the chords
// have the fewest accidentals together.
func rootsOf(kinds ...*theory.Kind) []theory.Note {
	out := slices.Clone(roots)
	for n, root := range out {
		for _, other := range notes("C# D# Gb G# A#") {
			if other.Same(root) && signs(other, kinds) < signs(root, kinds) {
				out[n] = other
			}
		}
	}
	return out
}

// signs counts the accidentals in the notes of chords of some kinds on one root. One that nobody likes to read counts
// more than three that are common: a double one, and C♭, F♭, E♯ and B♯.
func signs(root theory.Note, kinds []*theory.Kind) int {
	sum := 0
	for _, k := range kinds {
		for _, i := range k.Formula {
			n := root.Up(i)
			sum += max(int(n.Alter), -int(n.Alter))
			if isOdd(n) {
				sum += 4
			}
		}
	}
	return sum
}

// isOdd reports whether a note is written as nobody likes to read it.
func isOdd(n theory.Note) bool {
	return n.Alter > 1 || n.Alter < -1 || slices.Contains(oddNotes, n)
}

var oddNotes = notes("Cb Fb E# B#")

// notes reads a row of notes of our own tables.
func notes(row string) []theory.Note {
	var out []theory.Note
	for _, s := range strings.Fields(row) {
		n, err := theory.ParseNote(s)
		if err != nil {
			panic("drills: " + err.Error())
		}
		out = append(out, n)
	}
	return out
}

// Shapes in a question are among the easiest of their chord, and none asks too much of a hand. Where the
// student is to know little of the neck yet, they are the very easiest.
const (
	easiestShapes = 6
	mostEffort    = 19.0
	firstEffort   = 9.5
	fewestShapes  = 6 // of a kind, on all roots together, however hard they are
	mostFrets     = 4 // that the hand covers: a finger each
)

// hand is what the hand is taken to do in questions: less than what it can.
func (i *Instrument) hand() fret.Hand {
	h := i.Hand
	h.Span = min(h.Span, mostFrets)
	return h
}

// shapes returns the shapes of a chord that questions are made from, the easiest first. What is left out
// of them is no more than the fifth of a chord of five tones: the root always sounds.
func (i *Instrument) shapes(c theory.Chord) []held {
	i.neck.lock.Lock()
	defer i.neck.lock.Unlock()
	if out, known := i.neck.shapes[c]; known {
		return out
	}
	out := i.held(c, easiestShapes)
	if i.neck.shapes == nil {
		i.neck.shapes = map[theory.Chord][]held{}
	}
	i.neck.shapes[c] = out
	return out
}

// easiest finds so many shapes of a chord that questions may be made from; 0 is all of them.
func (i *Instrument) easiest(c theory.Chord, most int) []held {
	wish := fret.Wish{Most: most, Effort: mostEffort, Needs: c.Kind.Formula}
	if len(wish.Needs) >= 5 {
		wish.Needs = slices.DeleteFunc(slices.Clone(wish.Needs), func(i theory.Interval) bool { return i == theory.PerfectFifth })
	}
	var out []held
	for _, f := range fret.Easiest(i.Tuning, c, i.hand(), wish) {
		out = append(out, held{c, f.Shape, f.Effort})
	}
	return out
}

// What is new is asked on the shapes that players meet first, before any other: as long as the reach is below this, which
// it is on the first rung.
const newReach = 1.0 / 3

// New reports whether what is asked for is new.
func (r Request) New() bool { return r.Reach < newReach }

// fewestFirst is of how many chords of a kind shapes are asked first: those that players meet before any other, and if
// those are too few the easiest that they are taught.
const fewestFirst = 3

// firstShapes returns the shapes of a kind that are asked first, the textbook's of each chord; where there is no table of what players
// are taught, the easiest low ones of the common chords.
func (i *Instrument) firstShapes(k *theory.Kind) []held {
	if i.isHeld() {
		return i.heldFirst(k)
	}
	return i.taughtShapes(k).few()
}

// taughtShapes returns what players are taught of a kind of chord.
func (i *Instrument) taughtShapes(k *theory.Kind) taught {
	i.neck.lock.Lock()
	defer i.neck.lock.Unlock()
	if out, known := i.neck.taught[k]; known {
		return out
	}
	lessons := fret.Lessons(i.Tuning)
	var out taught
	if len(lessons) == 0 {
		out = i.lowShapes(k)
	}
	for _, l := range lessons {
		if l.Chord.Kind != k {
			continue
		}
		h := held{chord: theory.NewChord(writtenAs(l.Chord.Root, rootsOf(k)), k), shape: l.Shapes[0]}
		_, _, h.effort, _ = fret.Finger(h.shape)
		if v, err := h.voice(i); err != nil || !asked(v) {
			continue
		}
		if l.First {
			out.first = append(out.first, h)
		} else {
			out.later = append(out.later, h)
		}
	}
	slices.SortStableFunc(out.later, func(a, b held) int { return cmp.Compare(a.effort, b.effort) })
	if i.neck.taught == nil {
		i.neck.taught = map[*theory.Kind]taught{}
	}
	i.neck.taught[k] = out
	return out
}

// asked reports whether a shape leaves out no more than questions do: the fifth of a chord of five tones.
func asked(v fret.Voicing) bool {
	for _, tone := range v.Missing() {
		if len(v.Chord.Kind.Formula) < 5 || tone != theory.PerfectFifth {
			return false
		}
	}
	return true
}

// shapesOf returns the shapes of a kind of chord on every root, as far as the student's reach goes.
func (i *Instrument) shapesOf(k *theory.Kind, reach float64) []held {
	if first := i.firstShapes(k); reach < newReach && len(first) > 0 {
		return first
	}
	var all [][]held
	for _, r := range i.rootsFor(k) {
		all = append(all, i.shapes(theory.NewChord(r, k)))
	}
	return within(all, reach, func(h held) float64 { return h.effort })
}

// shapesOfEach returns the shapes within reach for each of several kinds.
func (i *Instrument) shapesOfEach(kinds []Target, reach float64) (out [][]held) {
	for _, k := range kinds {
		out = append(out, i.shapesOf(mustKind(k.ID), reach))
	}
	return out
}

// changes returns what the shapes of a plain chord can become by moving one string, as the table of
// additions has it; shapes of a chord that is complete, no harder than others.
func (i *Instrument) changes(plain theory.Chord) []change {
	shapes := i.shapes(plain)
	i.neck.lock.Lock()
	defer i.neck.lock.Unlock()
	if out, known := i.neck.swaps[plain]; known {
		return out
	}
	var out []change
	for _, h := range shapes {
		for _, s := range fret.Swaps(i.Tuning, h.shape, plain, nil) {
			if c := (change{plain, s}); s.Effort <= mostEffort && s.Chord.Without == 0 && IsAddition(plain.Kind, s.Chord.Kind) && i.mayMove(c) {
				out = append(out, c)
			}
		}
	}
	if i.neck.swaps == nil {
		i.neck.swaps = map[theory.Chord][]change{}
	}
	i.neck.swaps[plain] = out
	return out
}

// changesOf returns those of the changes of a plain chord that lead to a kind.
func (i *Instrument) changesOf(plain theory.Chord, coloured string) []change {
	list := i.changes(plain)
	i.neck.lock.Lock()
	defer i.neck.lock.Unlock()
	to := recolouring{plain, coloured}
	if out, known := i.neck.swapsTo[to]; known {
		return out
	}
	out := where(list, func(c change) bool { return c.Chord.Kind.ID == coloured })
	if i.neck.swapsTo == nil {
		i.neck.swapsTo = map[recolouring][]change{}
	}
	i.neck.swapsTo[to] = out
	return out
}

// changesTo returns the ways to a coloured chord of a kind from a plain one, on every root, as far as the
// student's reach goes.
func (i *Instrument) changesTo(plain *theory.Kind, coloured string, reach float64) []change {
	var all [][]change
	var first []held
	if reach < newReach {
		first = i.firstShapes(plain)
	}
	for _, r := range i.rootsFor(plain) {
		list := i.changesOf(theory.NewChord(r, plain), coloured)
		if len(first) > 0 {
			list = where(list, func(c change) bool { return slices.ContainsFunc(first, c.from) })
		}
		all = append(all, list)
	}
	if len(first) > 0 {
		return slices.Concat(all...)
	}
	return within(all, reach, func(c change) float64 { return c.Effort })
}

// from reports whether a change is of a shape.
func (c change) from(h held) bool { return c.plain == h.chord && slices.Equal(c.From, h.shape) }

// where returns what of a list is as wanted, in its order.
func where[T any](list []T, wanted func(T) bool) []T {
	return slices.DeleteFunc(slices.Clone(list), func(x T) bool { return !wanted(x) })
}

// within takes from each list, the easiest first, what lies within the student's reach: but a few at
// least, however hard.
func within[T any](lists [][]T, reach float64, effort func(T) float64) []T {
	most := 1 + int(reach*(easiestShapes-1)+0.5)
	limit := firstEffort + reach*(mostEffort-firstEffort)
	for {
		var out []T
		total := 0
		for _, list := range lists {
			total += len(list)
			for n, x := range list {
				if n < most && effort(x) <= limit {
					out = append(out, x)
				}
			}
		}
		if len(out) >= min(fewestShapes, total) {
			return out
		}
		most, limit = most+1, limit+1
	}
}

// itself is a shape, where lists of what is made of shapes are looked at as well.
func (h held) itself() held { return h }

// voice hears a shape as its chord.
func (h held) voice(on *Instrument) (fret.Voicing, error) {
	return fret.Voice(on.Tuning, h.shape, h.chord)
}

// nearestShape returns the shape of a chord that moves the fewest strings the least from another: what
// was answered, heard as much like what was asked as can be, with all its tones if it can be held so.
func nearestShape(on *Instrument, c theory.Chord, from fret.Shape) (fret.Voicing, bool) {
	if v, ok := nearestWhole(on, c, from); ok {
		return v, true
	}
	return nearestOf(on, c, from, fret.Search(on.Tuning, c, on.hand()))
}

// nearestWhole is the nearest shape of which no tone of the chord is left out.
func nearestWhole(on *Instrument, c theory.Chord, from fret.Shape) (fret.Voicing, bool) {
	return nearestOf(on, c, from, fret.Easiest(on.Tuning, c, on.hand(), fret.Wish{Effort: math.Inf(1), Needs: c.Kind.Formula}))
}

func nearestOf(on *Instrument, c theory.Chord, from fret.Shape, shapes []fret.Found) (fret.Voicing, bool) {
	if len(shapes) == 0 {
		return fret.Voicing{}, false
	}
	near := slices.MinFunc(shapes, func(a, b fret.Found) int { return travel(a.Shape, from) - travel(b.Shape, from) })
	v, err := fret.Voice(on.Tuning, near.Shape, c)
	return v, err == nil
}

// nearestKnown returns the one of a chord's easier shapes that lies nearest to another shape.
func nearestKnown(on *Instrument, c theory.Chord, from fret.Shape) (fret.Voicing, bool) {
	shapes := on.shapes(c)
	if len(shapes) == 0 {
		return fret.Voicing{}, false
	}
	v, err := slices.MinFunc(shapes, func(a, b held) int { return travel(a.shape, from) - travel(b.shape, from) }).voice(on)
	return v, err == nil
}

// travel measures how far two shapes lie apart: each string that moves, and how many frets.
func travel(a, b fret.Shape) int {
	sum := 0
	for i := range a {
		if a[i] != b[i] {
			sum += 2 + distance(a[i], b[i])
		}
	}
	return sum
}

// moving counts the strings that move between two shapes.
func moving(a, b fret.Shape) int {
	n := 0
	for i := range a {
		if a[i] != b[i] {
			n++
		}
	}
	return n
}

// noShape is the error of a drill that found none for a kind of chord.
func noShape(on *Instrument, k *theory.Kind) error {
	return say.Wrong("{} has no shape for {} chord that a hand can hold", say.Foreign(on.Tuning.Name), say.A(sayKind(k)))
}

// lowest returns the MIDI number of the lowest note that a shape sounds.
func lowest(t *fret.Tuning, s fret.Shape) int {
	low := 1 << 30
	for i, f := range s {
		if f != fret.Muted {
			low = min(low, t.MIDI(i, f))
		}
	}
	return low
}

// position returns the lowest fret that a shape stops, 0 if all strings are open.
func position(s fret.Shape) int {
	low := 0
	for _, f := range s {
		if f > 0 && (low == 0 || f < low) {
			low = f
		}
	}
	return low
}

// sounding counts the strings that sound.
func sounding(s fret.Shape) int {
	n := 0
	for _, f := range s {
		if f != fret.Muted {
			n++
		}
	}
	return n
}

// writtenAs returns which of the roots a note is.
func writtenAs(n theory.Note, roots []theory.Note) theory.Note {
	return roots[slices.IndexFunc(roots, n.Same)]
}

func distance(a, b int) int { return max(a-b, b-a) }
