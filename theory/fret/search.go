package fret

import (
	"cmp"
	"math/bits"
	"slices"

	"sparetone/theory"
)

// The search walks the strings in the tuning's order and gives each one a fret where it sounds a tone of the
// chord, or mutes it. It turns back as soon as the stops lie further apart than the hand spans, or the strings
// left are too few for the tones that still must sound. What gets through all strings is fingered (finger.go),
// and what four fingers can hold is kept, the easiest first. For C on four strings to fret 15 that takes
// 30 microseconds, for Am7 on six strings half a millisecond (BenchmarkSearch).
//
// What a shape must hold depends on the instrument:
//
//   - On five strings or more, strings may be muted, one of them between others that sound; at least three sound,
//     or all tones if the chord has fewer. Tones of a chord of four or more may be left out as its kind allows, but
//     never the root.
//   - On four strings or fewer all sound, and just so many tones are left out as there are too few strings for.
//   - The lowest note is the chord's bass where the instrument has a bass, and where the bass is not the root.

// Hand is what a hand can do.
type Hand struct {
	Span    int  // frets that the fingers cover, lowest to highest inclusive
	MaxFret int  // highest fret to look at
	Mute    bool // strings may be muted where the instrument allows it: on five strings or more
}

// DefaultHand is an ordinary hand: a finger a fret.
var DefaultHand = Hand{Span: 4, MaxFret: 15, Mute: true}

// Found is a playable shape of a chord.
type Found struct {
	Shape   Shape
	Fingers []int             // finger of each string in the tuning's order: 1 index to 4 little finger, 0 none
	Barre   int               // fret of the index finger's barre, 0 if none
	Effort  float64           // what the shape asks of the hand; 0 is nothing but open strings
	Missing []theory.Interval // tones of the chord's kind that do not sound; not to be changed
}

// Search returns the playable shapes of a chord, the easiest first. A chord with tones left out is searched
// without them.
func Search(t *Tuning, c theory.Chord, h Hand) []Found {
	w, ok := newWalk(t, c, h)
	if !ok {
		return nil
	}
	w.step(0, 1<<30, 0, 0)
	slices.SortFunc(w.found, func(a, b Found) int {
		return cmp.Or(cmp.Compare(a.Effort, b.Effort), slices.Compare(a.Shape, b.Shape))
	})
	return w.found
}

// place is a fret where a string sounds a tone.
type place struct {
	fret int
	midi int
	tone uint16 // the tone's bit; the bit after the last tone stands for a foreign bass
}

// walk is a search under way.
type walk struct {
	strings [maxStrings][]place
	count   int
	span    int
	mute    bool
	bass    int // pitch class that must be lowest, -1 for any
	foreign uint16
	must    uint16              // tones that must sound
	may     uint16              // tones that may be missing
	left    uint16              // tones that the chord has left out
	missing int                 // how many are missing; -1 for any number
	least   int                 // strings that must sound
	absent  [][]theory.Interval // what is missing, for each set of tones
	tones   []theory.Interval
	shape   Shape
	holding holding
	found   []Found
	room    []int // where shapes and fingers are kept
	here    [maxStrings]place
}

func newWalk(t *Tuning, c theory.Chord, h Hand) (*walk, bool) {
	f := c.Kind.Formula
	w := &walk{
		count: len(t.Strings), span: h.Span, bass: -1, tones: f, left: uint16(c.Without), shape: make(Shape, len(t.Strings)),
		mute: h.Mute && len(t.Strings) > 4, absent: make([][]theory.Interval, 1<<len(f)),
	}
	if c.Bass != c.Root || t.hasBass() {
		w.bass = c.Bass.Class()
	}
	var toneOf [12]uint16 // the bit of each pitch class above the root
	sounding := 0
	for n, tone := range f {
		if c.Without.Has(n) {
			continue
		}
		sounding++
		toneOf[tone.Semitones%12] = 1 << n
		if slices.Contains(c.Kind.Omit, tone) && !(w.mute && (n == 0 || len(f) < 4)) {
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
	w.least = w.count
	w.missing = max(0, sounding-w.count)
	if w.mute {
		w.least = min(3, sounding)
		w.missing = -1
	}
	if bits.OnesCount16(w.must) > w.count {
		return nil, false
	}
	for i := range w.count {
		for fret := 0; fret <= min(h.MaxFret, t.Frets); fret++ {
			if fret > 0 && fret <= t.Start(i) {
				continue
			}
			midi := t.MIDI(i, fret)
			if tone := toneOf[mod(midi-c.Root.Class(), 12)]; tone != 0 {
				w.strings[i] = append(w.strings[i], place{fret, midi, tone})
			}
		}
	}
	return w, true
}

// step gives the i-th string its fret. lo and hi are the lowest and highest stop so far, sounds the tones.
func (w *walk) step(i, lo, hi int, sounds uint16) {
	if bits.OnesCount16(w.must&^sounds) > w.count-i {
		return
	}
	if i == w.count {
		w.keep(sounds)
		return
	}
	for _, p := range w.strings[i] {
		l, h := lo, hi
		if p.fret > 0 {
			l, h = min(lo, p.fret), max(hi, p.fret)
			if h-l >= w.span {
				if p.fret > lo {
					break // every further fret lies higher still
				}
				continue
			}
		}
		w.shape[i], w.here[i] = p.fret, p
		w.step(i+1, l, h, sounds|p.tone)
	}
	if w.mute {
		w.shape[i] = Muted
		w.step(i+1, lo, hi, sounds)
	}
}

// keep keeps the shape if it is the chord and a hand can hold it.
func (w *walk) keep(sounds uint16) {
	absent := w.may &^ sounds
	if w.missing >= 0 && bits.OnesCount16(absent) != w.missing {
		return
	}
	lowest, foreign := place{midi: 1 << 30}, 0
	first, last, strings := -1, 0, 0
	for i, f := range w.shape {
		if f == Muted {
			continue
		}
		if p := w.here[i]; p.midi < lowest.midi {
			lowest = p
		}
		if w.here[i].tone == w.foreign {
			foreign++
		}
		if first < 0 {
			first = i
		}
		last = i
		strings++
	}
	switch {
	case strings < w.least, last-first+1-strings > 1, foreign > 1:
		return
	case w.bass >= 0 && mod(lowest.midi, 12) != w.bass:
		return
	case !w.holding.find(w.shape):
		return
	}
	n := w.count
	if len(w.room) < 2*n {
		w.room = make([]int, 64*2*n)
	}
	shape, fingers := Shape(w.room[:n:n]), w.room[n:2*n:2*n]
	w.room = w.room[2*n:]
	copy(shape, w.shape)
	w.holding.best.copyTo(fingers)
	w.found = append(w.found, Found{
		Shape: shape, Fingers: fingers, Barre: w.holding.best.barre(), Effort: w.holding.best.effort, Missing: w.without(absent | w.left),
	})
}

// without returns the tones of a set, always the same slice for the same set.
func (w *walk) without(absent uint16) []theory.Interval {
	if absent == 0 || w.absent[absent] != nil {
		return w.absent[absent]
	}
	for n, tone := range w.tones {
		if absent&(1<<n) != 0 {
			w.absent[absent] = append(w.absent[absent], tone)
		}
	}
	return w.absent[absent]
}

func mod(a, n int) int { return ((a % n) + n) % n }
