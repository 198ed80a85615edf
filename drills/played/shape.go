package played

import (
	"math"
	"slices"

	"sparetone/drills"
	"sparetone/drills/neck"
	"sparetone/synth/hear"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// mostTries is how many times strings are plucked in turn without anything sure, before it is said how else to answer.
const mostTries = 2

// slipMost is by how many frets a finger slips.
const slipMost = 2

// ShapeAttempt is an attempt at a shape.
type ShapeAttempt struct {
	on     *fret.Tuning
	want   fret.Voicing
	others []fret.Shape // what else may be played as a whole
	right  func(fret.Shape) bool
	whole  bool // each string has to be sure: else one stroke that sounds right is enough
	a4     float64

	turn  []int // the numbers of the strings that are plucked in turn, in their order; nil: all are struck
	heard []int // of each string, what the stroke before sounded
	tries int

	amissBefore fret.Shape // the shape of the last stroke that was an answer and not right; nil if there was none
}

// NewShapeAttempt returns an attempt at a shape that is seen and not asked for: one stroke that sounds like it is enough, if so wished.
func NewShapeAttempt(want fret.Voicing, a4 float64) *ShapeAttempt {
	return &ShapeAttempt{
		on: want.Tuning, want: want, others: without(Book(want.Tuning), want.Shape), a4: a4,
		right: func(s fret.Shape) bool { return slices.Equal(s, want.Shape) },
	}
}

// newAsked returns an attempt at a question that is answered by a shape.
func newAsked(q *drills.Question, on *neck.Instrument, a4 float64) Attempt {
	expected, err := fret.ParseShape(q.Expected().Typed)
	if err != nil {
		return nil
	}
	want, err := fret.Voice(on.Tuning, expected, q.Answer)
	if err != nil {
		return nil
	}
	a := &ShapeAttempt{on: on.Tuning, want: want, a4: a4, whole: true, right: func(s fret.Shape) bool { return right(q, s.String()) }}
	add := func(s fret.Shape) {
		if on.Tuning.Check(s) == nil && !slices.Equal(s, expected) && !has(a.others, s) {
			a.others = append(a.others, s)
		}
	}
	for _, typed := range q.Accepts {
		if s, err := fret.ParseShape(typed); err == nil {
			add(s)
		}
	}
	if q.Shown != nil {
		add(q.Shown.Shape)
	}
	for _, s := range Book(on.Tuning) {
		add(s)
	}
	return a
}

func without(all []fret.Shape, s fret.Shape) []fret.Shape {
	return slices.DeleteFunc(all, func(o fret.Shape) bool { return slices.Equal(o, s) })
}

// Listens implements Attempt.
func (a *ShapeAttempt) Listens() Listening {
	task := &hear.Task{A4: a.a4}
	strings, expect := Strings(a.on), Pitches(a.on, a.want.Shape)
	for i, s := range strings {
		if a.turn == nil || slices.Contains(a.turn, s.Number) {
			task.Strings, task.Expect = append(task.Strings, s), append(task.Expect, expect[i])
		}
	}
	if len(task.Strings) == len(strings) {
		for _, s := range a.others {
			task.Among = append(task.Among, Pitches(a.on, s))
		}
	}
	task.Order = a.turn
	return Listening{Task: task}
}

// Asks implements Attempt.
func (a *ShapeAttempt) Asks() say.Text {
	switch {
	case a.turn == nil:
		return sayStrum
	case len(a.turn) < len(a.on.Strings):
		return sayPluckThese(a.on, a.turn)
	}
	return sayPluckAll(a.on)
}

// InTurn reports whether strings are plucked in turn now, and not struck.
func (a *ShapeAttempt) InTurn() bool { return a.turn != nil }

// Take implements Attempt.
func (a *ShapeAttempt) Take(h Heard) Came {
	switch {
	case h.Nothing && a.turn == nil:
		return Came{Says: sayNoStroke, Again: true}
	case h.Begun > 0 && a.turn != nil:
		return Came{Says: sayPlucked(min(h.Begun, len(a.turn)), len(a.turn)), Seen: true}
	}
	c, is := nothingToMark(h)
	switch {
	case is || h.Reading == nil:
		return c
	case a.turn == nil:
		return a.struck(*h.Reading)
	}
	return a.plucked(*h.Reading)
}

// struck takes a stroke over all strings.
func (a *ShapeAttempt) struck(r hear.Reading) Came {
	pitches := pitchesHeard(r)
	shape := Shape(a.on, pitches)
	switch fits := a.right(shape); {
	case r.Foreign: // whatever it is read as
	case fits && (r.Verdict == hear.Right || surely(r) && !a.anyDoubtful(r)):
		a.heard = pitches
		if pairs := a.doubtful(pitches); a.whole && pairs != nil {
			return a.turns(pairs, sayAlike(a.on, pairs))
		}
		return a.answer(shape, true, r)
	case !fits && surely(r) && !a.anyDoubtful(r) && !(a.farOff(shape) && a.heldOtherwise(shape)) && !(a.whole && a.doubtful(pitches) != nil):
		if a.whole && slices.Equal(shape, a.amissBefore) {
			return a.turns(a.all(), say.Of("{} {}", saySameAgain, sayPluckAll(a.on)))
		}
		a.amissBefore = shape
		return a.answer(shape, false, r)
	}
	return a.turns(a.all(), say.Of("{} {}", sayNotSure, sayPluckAll(a.on)))
}

// plucked takes strings that were plucked in turn.
func (a *ShapeAttempt) plucked(r hear.Reading) Came {
	if r.Foreign || slices.ContainsFunc(r.Strings, func(s hear.Heard) bool { return !s.Certain() }) {
		if a.tries++; a.tries >= mostTries {
			return Came{Says: sayGiveUp}
		}
		return a.turns(a.all(), say.Of("{} {}", sayNotSure, sayPluckAll(a.on)))
	}
	pitches := a.heard
	if len(r.Strings) == len(a.on.Strings) {
		pitches = pitchesHeard(r)
	} else {
		pitches = slices.Clone(pitches)
		for _, s := range r.Strings {
			pitches[len(pitches)-s.Number] = s.Pitch
		}
	}
	shape := Shape(a.on, pitches)
	if a.on.Check(shape) != nil {
		return Came{Says: sayNothing, Again: true} // no string sounded
	}
	return a.answer(shape, a.right(shape), r)
}

// answer is a shape as what came of a reading. The next attempt begins with a stroke again; but what was plucked in turn for
// a question and is not right is plucked once more, all strings of it, whether it is to count or was taken back.
func (a *ShapeAttempt) answer(s fret.Shape, right bool, r hear.Reading) Came {
	inTurn := a.turn != nil
	a.turn, a.heard, a.tries = nil, nil, 0
	if a.whole && inTurn && !right {
		a.turn = a.all()
	}
	c := Came{Says: sayThatIsIt, Answer: s.String(), Shape: s, Right: right, InTurn: inTurn, Anew: true}
	if !right {
		c.Says, c.Amiss = a.another(r, s), a.amiss(s)
	}
	return c
}

// turns has some strings be plucked in turn.
func (a *ShapeAttempt) turns(strings []int, says say.Text) Came {
	a.turn = strings
	return Came{Says: says, Anew: true}
}

// all are the numbers of all strings, in the order in which they are plucked.
func (a *ShapeAttempt) all() (out []int) {
	for i := range a.on.Strings {
		out = append(out, a.on.StringNumber(i))
	}
	return out
}

// doubtful are the strings that sound the same as another, or an octave away from it, in the order in which they are plucked; nil if
// there are none.
func (a *ShapeAttempt) doubtful(pitches []int) (out []int) {
	for i, p := range pitches {
		if slices.ContainsFunc(pitches, func(o int) bool { return octaves(p, o) }) || count(pitches, p) > 1 {
			if p != hear.Silent {
				out = append(out, a.on.StringNumber(i))
			}
		}
	}
	return out
}

// octaves reports whether two pitches lie some octaves apart.
func octaves(p, o int) bool {
	return p != hear.Silent && o != hear.Silent && p != o && (p-o)%12 == 0
}

func count(all []int, p int) (n int) {
	for _, o := range all {
		if o == p {
			n++
		}
	}
	return n
}

// anyDoubtful reports whether what is amiss in a stroke may not be: a string that is silent, for it may sound what another sounds too, or what another
// masks; or one that sounds another pitch, where what it should sound lies octaves away from what another sounds, or is the same.
func (a *ShapeAttempt) anyDoubtful(r hear.Reading) bool {
	for i, s := range r.Strings {
		if s.Pitch == s.Expected {
			continue
		}
		if s.Unison != 0 || s.Pitch == hear.Silent {
			return true
		}
		for k, o := range r.Strings {
			if k != i && o.Pitch != hear.Silent && (octaves(s.Expected, o.Pitch) || octaves(s.Pitch, o.Pitch) || s.Expected == o.Pitch) {
				return true
			}
		}
	}
	return false
}

// farOff reports whether a shape is none that a finger's slip makes of what is expected: more than one string is amiss, or one by more than slipMost.
func (a *ShapeAttempt) farOff(shape fret.Shape) bool {
	amiss := 0
	for i, f := range shape {
		switch off := f - a.want.Shape[i]; {
		case off == 0:
		case off > slipMost || off < -slipMost:
			return true
		default:
			amiss++
		}
	}
	return amiss > 1
}

// heldOtherwise reports whether a hand can hold the pitches of a shape in another way, each on another string: one stroke does not tell which string
// sounds what.
func (a *ShapeAttempt) heldOtherwise(shape fret.Shape) bool {
	left := Pitches(a.on, shape)
	other := slices.Clone(shape)
	strings := Strings(a.on)
	var from func(i int) bool
	from = func(i int) bool {
		switch {
		case i == len(shape):
			return !slices.Equal(other, shape) && a.reaches(other)
		case shape[i] == fret.Muted:
			return from(i + 1)
		}
		for k, p := range left {
			if p == hear.Silent || !slices.Contains(strings[i].May, p) {
				continue
			}
			left[k], other[i] = hear.Silent, fretOf(a.on, i, p)
			if from(i + 1) {
				return true
			}
			left[k] = p
		}
		return false
	}
	return from(0)
}

// reaches reports whether a hand can hold a shape.
func (a *ShapeAttempt) reaches(s fret.Shape) bool {
	lowest, highest := 0, slices.Max(s)
	for _, f := range s {
		if f > 0 && (lowest == 0 || f < lowest) {
			lowest = f
		}
	}
	_, _, _, holds := fret.Finger(s)
	return holds && (lowest == 0 || highest <= a.on.Reach(lowest))
}

// surely reports whether all strings of a reading are sure together.
func surely(r hear.Reading) bool {
	return r.AboveNoise >= hear.Quiet && r.Sure >= math.Pow(hear.Certain, float64(len(r.Strings)))
}

func pitchesHeard(r hear.Reading) []int {
	out := make([]int, len(r.Strings))
	for i, s := range r.Strings {
		out[i] = s.Pitch
	}
	return out
}

// another says which other chord a shape is that was played as a whole; zero where it is none.
func (a *ShapeAttempt) another(r hear.Reading, shape fret.Shape) say.Text {
	off := 0
	for i, f := range shape {
		if f != a.want.Shape[i] {
			off++
		}
	}
	names := fret.Names(a.on, shape, theory.Context{})
	if off < 2 || r.Among < 0 || len(r.Strings) < len(a.on.Strings) || len(names) == 0 {
		return say.Text{}
	}
	return sayAnother(names[0].Chord)
}

// amiss says which strings of a shape sound what they should not.
func (a *ShapeAttempt) amiss(shape fret.Shape) say.Text {
	made, err := fret.Voice(a.on, shape, a.want.Chord)
	if err != nil {
		return say.Text{}
	}
	var amiss []say.Text
	for i, s := range made.Strings {
		if s.Fret == a.want.Strings[i].Fret {
			continue
		}
		if s.Foreign {
			s.Pitch = a.on.Pitch(i, s.Fret)
		}
		amiss = append(amiss, sayStringAmiss(a.on, s, a.want.Strings[i]))
	}
	return say.Sentence("{}.", say.Clauses(amiss...))
}
