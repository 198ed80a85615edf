package fret

import (
	"cmp"
	"math"
	"math/bits"
	"slices"

	"sparetone/theory"
)

// The search walks the strings in the tuning's order and gives each one a fret where it sounds a tone of the
// chord, or mutes it. It turns back as soon as the stops lie further apart than the hand spans, or the strings
// left are too few for the tones that still must sound. What gets through all strings is fingered (finger.go),
// and what four fingers can hold is kept, the easiest first. For C on four strings to fret 15 that takes
// 30 microseconds, for Am7 on six strings half a millisecond (BenchmarkSearch). Where only the easiest few are
// wanted it turns back as well as soon as what is held so far asks more than the hardest of those found, and takes
// a third of that time or less (BenchmarkEasiest).
//
// What a shape must hold depends on the instrument:
//
//   - On five strings or more, strings may be muted, one of them between others that sound; at least three sound,
//     or all tones if the chord has fewer. Tones of a chord of four or more may be left out as its kind allows, but
//     never the root.
//   - On four strings or fewer all sound, and just so many tones are left out as there are too few strings for; or the
//     fifth of a chord of four tones, so that another is doubled, as players take C7 on a mandolin (3230). A triad keeps its
//     fifth, unless players are taught the shape without it, as C on a mandolin (5230).
//   - The lowest note is the chord's bass where the instrument has a bass, and where the bass is not the root.

// Hand is what a hand can do.
type Hand struct {
	Span    int  // frets that the fingers cover at the most, lowest to highest inclusive; fewer where they are too wide (Tuning.Reach)
	MaxFret int  // highest fret to look at
	Mute    bool // strings may be muted where the instrument allows it: on five strings or more
}

// DefaultHand is an ordinary hand.
var DefaultHand = Hand{Span: widestReach, MaxFret: 15, Mute: true}

// Found is a playable shape of a chord.
type Found struct {
	Shape   Shape
	Fingers []int             // finger of each string in the tuning's order: 1 index to 4 little finger, 0 none
	Barre   int               // fret of the index finger's barre, 0 if none
	Effort  float64           // what the shape asks of the hand; 0 is nothing but open strings
	Missing []theory.Interval // tones of the chord's kind that do not sound; the slice is shared, so read it only
	Taught  bool              // players are taught this shape of the chord

	toll float64 // the effort and what the sound costs beside; shapes that are not taught are put in its order
}

// Search returns the playable shapes of a chord: those that players are taught first (taught.tsv), in the order in which
// textbooks show them, then the easiest. A chord with tones left out is searched without them.
func Search(t *Tuning, c theory.Chord, h Hand) []Found {
	return Easiest(t, c, h, Wish{Effort: math.Inf(1)})
}

// Wish is which of a chord's playable shapes are wanted.
type Wish struct {
	Most   int               // how many, the first; 0 is all
	Effort float64           // the most that a shape may ask of the hand; math.Inf(1) for any, 0 for open strings alone
	Needs  []theory.Interval // tones of the chord that must sound, though its kind may lose them
}

// Easiest returns the first of those shapes that Search finds which are as wished. It is quicker than to
// choose among them: whatever is sure to be harder than what is known already is not fingered.
func Easiest(t *Tuning, c theory.Chord, h Hand, wish Wish) []Found {
	w, ok := newWalk(t, c, h, wish)
	if !ok {
		return nil
	}
	for _, s := range Taught(t, c) {
		if f, ok := w.findOne(s); ok && (wish.Most == 0 || len(w.taught) < wish.Most) {
			w.taught = append(w.taught, f)
		}
	}
	if wish.Most > 0 {
		if w.most -= len(w.taught); w.most == 0 {
			return w.taught
		}
	}
	w.step(0, part{lo: none, lowest: none})
	if wish.Most == 0 {
		slices.SortFunc(w.found, byToll)
	}
	return slices.Concat(w.taught, w.found)
}

// byToll puts the easier shape first.
func byToll(a, b Found) int {
	return cmp.Or(cmp.Compare(a.toll, b.toll), slices.Compare(a.Shape, b.Shape))
}

// place is a fret where a string sounds a tone.
type place struct {
	fret int
	midi int
	tone uint16 // the tone's bit; the bit after the last tone stands for a foreign bass
}

// mostBetween is how many strings may be muted between others that sound.
const mostBetween = 1

// walk is a search under way.
type walk struct {
	strings     [maxStrings][]place
	lowestFrom  [maxStrings + 1]int // by string: the lowest MIDI number that it and those after it have for the chord
	count       int
	top         []int // by lowest stop: the highest fret that may be stopped with it
	bottom      []int // by highest stop: the lowest fret that may be stopped with it
	mute        bool
	bassClass   int                 // pitch class that must be lowest, -1 for any
	foreign     uint16              // the bit of a bass that is no tone of the chord; 0 if it is one
	must        uint16              // tones that must sound
	may         uint16              // tones that may be missing
	hasBass     bool                // the instrument has a bass
	extras      uint16              // tones that are none of root, third and fifth
	fifth       uint16              // the perfect fifth, if it may be missing where there are strings enough for all tones
	omitted     uint16              // tones that the chord has left out
	mostMissing int                 // how many tones are left out, exactly; -1 for any number
	least       int                 // strings that must sound
	tonesOf     [][]theory.Interval // by set of tones: the slice of them, made once
	tones       []theory.Interval
	shape       Shape
	holding     holding
	found       []Found
	most        int               // shapes wanted, 0 for all
	mostEffort  float64           // the most that a shape may ask of the hand
	mostToll    float64           // the highest toll that another shape may have
	only        Shape             // nil, or the one shape to be found
	triads      []Shape           // the taught shapes of the triad that the chord is learned from
	taught      []Found           // the shapes that players are taught
	room        []int             // memory for the shapes and fingers that are found next
	here        [maxStrings]place // of each string where it is stopped in the shape so far
}

func newWalk(t *Tuning, c theory.Chord, h Hand, wish Wish) (*walk, bool) {
	f := c.Kind.Formula
	w := &walk{
		count: len(t.Strings), bassClass: -1, tones: f, omitted: uint16(c.Without), shape: make(Shape, len(t.Strings)),
		mute: h.Mute && len(t.Strings) > 4, tonesOf: make([][]theory.Interval, 1<<len(f)), most: wish.Most, mostToll: math.Inf(1),
		mostEffort: math.Floor(wish.Effort*stepsToOne+tiny) / stepsToOne,
	}
	if c.Bass != c.Root || t.HasBass() {
		w.bassClass = c.Bass.Class()
	}
	var toneOf [12]uint16 // the bit of each pitch class above the root
	sounding := 0
	for n, tone := range f {
		if c.Without.Has(n) {
			continue
		}
		sounding++
		if tone.Number != 1 && tone.Number != 3 && tone.Number != 5 {
			w.extras |= 1 << n
		}
		toneOf[tone.Semitones%12] = 1 << n
		if slices.Contains(c.Kind.Omit, tone) && !slices.Contains(wish.Needs, tone) && !(w.mute && (n == 0 || len(f) < 4)) {
			w.may |= 1 << n
		} else {
			w.must |= 1 << n
		}
	}
	if above := mod(c.Bass.Class()-c.Root.Class(), 12); toneOf[above] == 0 && c.Bass != c.Root {
		w.foreign = 1 << len(f)
		toneOf[above] = w.foreign
		w.must |= w.foreign
		sounding++
	}
	w.hasBass = t.HasBass()
	w.triads = triads(t, c)
	w.least = w.count
	w.mostMissing = max(0, sounding-w.count)
	if w.mute {
		w.least = min(3, sounding)
		w.mostMissing = -1
	}
	if fifth := slices.Index(f, theory.PerfectFifth); w.mostMissing == 0 && len(f) > 3 && fifth >= 0 {
		w.fifth = w.may & (1 << fifth)
	}
	if bits.OnesCount16(w.must) > w.count {
		return nil, false
	}
	top := min(h.MaxFret, t.Frets)
	w.reach(t, h.Span, top)
	all := make([]place, 0, w.count*max(0, top+1))
	for i := range w.count {
		from := len(all)
		for fret := 0; fret <= top; fret++ {
			if fret > 0 && fret <= t.Start(i) {
				continue
			}
			midi := t.MIDI(i, fret)
			if tone := toneOf[mod(midi-c.Root.Class(), 12)]; tone != 0 {
				all = append(all, place{fret, midi, tone})
			}
		}
		w.strings[i] = all[from:]
	}
	w.lowestFrom[w.count] = none
	for i := w.count - 1; i >= 0; i-- {
		w.lowestFrom[i] = w.lowestFrom[i+1]
		for _, at := range w.strings[i] {
			w.lowestFrom[i] = min(w.lowestFrom[i], at.midi)
		}
	}
	return w, true
}

// reach works out which stops a hand reaches together, on frets up to the top.
func (w *walk) reach(t *Tuning, span, top int) {
	w.top, w.bottom = make([]int, max(0, top)+1), make([]int, max(0, top)+1)
	for f := 1; f <= top; f++ {
		w.top[f] = min(t.Reach(f), f+span-1)
	}
	for f := 1; f <= top; f++ {
		for w.bottom[f] = max(1, w.bottom[f-1]); w.top[w.bottom[f]] < f; w.bottom[f]++ {
		}
	}
}

// findOne finds the shape s if it is as wished, and marks it as taught.
func (w *walk) findOne(s Shape) (Found, bool) {
	one := *w
	one.only, one.most, one.shape = s, 0, make(Shape, w.count)
	if fifth := slices.Index(w.tones, theory.PerfectFifth); w.mostMissing == 0 && len(w.tones) == 3 && fifth >= 0 {
		one.fifth = w.may & (1 << fifth)
	}
	for i, f := range s {
		one.strings[i] = nil
		for n, at := range w.strings[i] {
			if at.fret == f {
				one.strings[i] = w.strings[i][n : n+1]
			}
		}
	}
	one.step(0, part{lo: none, lowest: none})
	if len(one.found) == 0 {
		return Found{}, false
	}
	f := one.found[0]
	f.Taught = true
	return f, true
}

// roomFor is for how many shapes room is made at once.
const roomFor = 16

// none is more than any fret or MIDI number.
const none = 1 << 30

// part is what the strings have that the walk has been through.
type part struct {
	lo, hi    int    // lowest and highest stop
	frets     uint64 // bit f: fret f is stopped
	stops     int    // strings that are stopped
	tones     uint16 // bit n: tone n of the formula sounds
	lowest    int    // MIDI number of the lowest note
	sounds    int    // strings that sound
	silent    int    // strings muted since the last that sounds
	under     int    // strings muted before the first that sounds
	gap       int    // strings muted between strings that sound
	open      int    // strings that sound open
	firstFret int    // fret of the first string that sounds
}

// form is what the form of the shape costs beside the effort, where there is a bass and the chord is not learned from a
// triad: open strings over a stopped bass, or, where no string is open, a bass that does not lie at the lowest fret. Of a
// shape that is not whole it is the least.
func (p *part) form(whole bool) float64 {
	up := cost.rootUp * float64(p.firstFret-p.lo)
	switch {
	case p.sounds == 0 || p.firstFret == 0:
		return 0
	case p.open > 0:
		return cost.alone
	case whole:
		return up
	}
	return min(cost.alone, up)
}

// hasForm reports whether the form of a shape costs anything.
func (w *walk) hasForm() bool { return w.hasBass && len(w.triads) == 0 }

// asks is what a shape that begins so asks of a hand at the least: a finger for each fret, for the other stops a finger
// each or a barre, the span, the strings to keep silent, to miss or that ring open beside the highest stop, and the way
// up the neck to the lowest fret that there may still be, from where the last finger rests that can be the first.
func (w *walk) asks(p *part) float64 {
	effort := cost.midMute * float64(p.gap)
	if p.sounds > 0 {
		effort += missed(p.under) + min(cost.midMute, cost.topMute)*float64(p.silent)
	} else {
		effort += missed(p.silent)
	}
	if p.frets == 0 {
		return effort
	}
	frets := bits.OnesCount64(p.frets)
	more := float64(p.stops - frets)
	return effort + cost.finger*float64(frets) + min(cost.finger*more, cost.barre+cost.under*(more+1)) + beside(p.open, p.hi) +
		spread(p.lo, p.hi) + cost.position*float64(max(0, w.bottom[p.hi]-(fingersOnHand+1-frets)))
}

// beyond reports whether what a shape that begins so asks of a hand, and what its form costs, is more than is wished.
func (w *walk) beyond(p *part) bool {
	effort := w.asks(p) - tiny
	if effort >= min(w.mostEffort, w.mostToll)+halfStep {
		return true
	}
	return w.hasForm() && effort+p.form(false) >= w.mostToll+halfStep
}

// step gives the i-th string its fret.
func (w *walk) step(i int, p part) {
	switch {
	case bits.OnesCount16(w.must&^p.tones) > w.count-i, w.beyond(&p):
		return
	case w.bassClass >= 0 && p.lowest < none && p.lowest <= w.lowestFrom[i] && mod(p.lowest, 12) != w.bassClass:
		return // the lowest note will not be the bass
	case i == w.count:
		w.keep(p)
		return
	}
	next := p
	next.sounds, next.silent = p.sounds+1, 0
	if p.sounds > 0 {
		next.gap += p.silent
	} else {
		next.under = p.silent
	}
	for _, at := range w.strings[i] {
		if next.gap > mostBetween {
			break
		}
		next.lo, next.hi, next.frets, next.stops, next.open = p.lo, p.hi, p.frets, p.stops, p.open
		next.tones, next.lowest = p.tones|at.tone, min(p.lowest, at.midi)
		if p.sounds == 0 {
			next.firstFret = at.fret
		}
		if at.fret > 0 {
			next.lo, next.hi, next.frets, next.stops = min(p.lo, at.fret), max(p.hi, at.fret), p.frets|1<<at.fret, p.stops+1
			if next.hi > w.top[next.lo] {
				if at.fret > p.lo {
					break // every further fret lies higher still
				}
				continue
			}
		} else {
			next.open++
		}
		w.shape[i], w.here[i] = at.fret, at
		w.step(i+1, next)
	}
	if w.mute && (w.only == nil || w.only[i] == Muted) {
		w.shape[i] = Muted
		p.silent++
		w.step(i+1, p)
	}
}

// keep keeps the shape if it is the chord and a hand can hold it.
func (w *walk) keep(p part) {
	if slices.ContainsFunc(w.taught, func(f Found) bool { return slices.Equal(f.Shape, w.shape) }) {
		return
	}
	absent := w.may &^ p.tones
	if w.mostMissing >= 0 && bits.OnesCount16(absent) != w.mostMissing && (w.fifth == 0 || absent != w.fifth) || p.sounds < w.least || w.foreignTwice() {
		return
	}
	sound := w.soundCost(absent)
	if w.hasForm() {
		sound += p.form(true)
	}
	sound += fromTriad(w.triads, w.shape)
	if !w.holding.find(w.shape, min(w.mostEffort, w.mostToll-sound)) {
		return
	}
	n := w.count
	if len(w.room) < 2*n {
		w.room = make([]int, roomFor*2*n)
	}
	shape, fingers := Shape(w.room[:n:n]), w.room[n:2*n:2*n]
	w.room = w.room[2*n:]
	copy(shape, w.shape)
	w.holding.best.copyTo(fingers)
	w.take(Found{
		toll: w.holding.best.effort + sound, Shape: shape, Fingers: fingers, Barre: w.holding.best.barre(), Effort: w.holding.best.effort, Missing: w.without(absent | w.omitted),
	})
}

// foreignTwice reports whether two strings sound a bass that is foreign to the chord.
func (w *walk) foreignTwice() bool {
	if w.foreign == 0 {
		return false
	}
	count := 0
	for i, f := range w.shape {
		if f != Muted && w.here[i].tone == w.foreign {
			count++
		}
	}
	return count > 1
}

// soundCost is what the sound of the shape costs beside the effort: for tones that are absent, and for an extra tone on the second string that sounds.
func (w *walk) soundCost(absent uint16) float64 {
	sum := cost.missing * float64(bits.OnesCount16(absent))
	sounded := 0
	for i, f := range w.shape {
		if f == Muted {
			continue
		}
		sounded++
		colour := w.here[i].tone & w.extras
		if colour != 0 && sounded == 2 && w.hasBass {
			sum += cost.low
		}
	}
	return sum
}

// take adds a shape to those found. Where only so many are wanted they are kept in order, and the hardest of them
// is what another must not ask more than.
func (w *walk) take(f Found) {
	if w.most == 0 {
		w.found = append(w.found, f)
		return
	}
	at, _ := slices.BinarySearchFunc(w.found, f, byToll)
	w.found = slices.Insert(w.found, at, f)
	w.found = w.found[:min(w.most, len(w.found))]
	if len(w.found) == w.most {
		w.mostToll = w.found[w.most-1].toll
	}
}

// without returns the tones of a set, always the same slice for the same set.
func (w *walk) without(absent uint16) []theory.Interval {
	if absent == 0 || w.tonesOf[absent] != nil {
		return w.tonesOf[absent]
	}
	for n, tone := range w.tones {
		if absent&(1<<n) != 0 {
			w.tonesOf[absent] = append(w.tonesOf[absent], tone)
		}
	}
	return w.tonesOf[absent]
}
