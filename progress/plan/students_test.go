package plan

import (
	"math"
	"math/rand/v2"
	"time"

	"sparetone/progress"
)

// Simulated students. Their memories follow models that the planner does not use, so that what the
// planner gains is not gained from knowing the answer. The numbers in them are chosen by us so that a
// student of middling ability remembers a new thing for about a day and needs some weeks to hold it
// for a month; no source.

// student is someone whose true memory can be read.
type student interface {
	// chance returns how likely the student really remembers an item on a day, guessing apart.
	chance(item int, day float64) float64
	// learn is what a question does to memory: remembered or shown. Against is the item it was set
	// against, or -1.
	learn(item, against int, day float64, remembered bool)
	// gain returns how much more of everything will be known on a later day, for asking this now.
	gain(item, against int, day, later float64) float64
}

// exponential forgets at a rate that halves what is left in a fixed time. Remembering makes the
// half-life longer, the more so the more was forgotten; a miss shortens it.
type exponential struct {
	half []float64 // days; 0 if never met
	last []float64
	gift []float64 // ability on each item, about 1
}

func newExponential(items int, rng *rand.Rand) *exponential {
	s := &exponential{half: make([]float64, items), last: make([]float64, items), gift: make([]float64, items)}
	ability := math.Exp(0.35 * rng.NormFloat64())
	for i := range s.gift {
		s.gift[i] = ability * math.Exp(0.5*rng.NormFloat64())
	}
	return s
}

func (s *exponential) chance(i int, day float64) float64 {
	if s.half[i] == 0 {
		return 0
	}
	return math.Exp2(-max(0, day-s.last[i]) / s.half[i])
}

func (s *exponential) next(i int, day float64, remembered bool) float64 {
	first := 0.8 * s.gift[i]
	switch {
	case s.half[i] == 0:
		return first
	case remembered:
		return s.half[i] * (1 + 5*math.Sqrt(s.gift[i])*(1-s.chance(i, day)))
	}
	return max(first, 0.4*s.half[i])
}

func (s *exponential) learn(i, against int, day float64, remembered bool) {
	s.half[i], s.last[i] = s.next(i, day, remembered), day
}

func (s *exponential) gain(i, against int, day, later float64) float64 {
	p := s.chance(i, day)
	after := func(remembered bool) float64 { return math.Exp2(-(later - day) / s.next(i, day, remembered)) }
	return p*after(true) + (1-p)*after(false) - s.chance(i, later)
}

// power adds up traces, each fading as a power of time, faster if much was still there when it was
// laid. Source of the form: Pavlik and Anderson, Cognitive Science 29(4), 2005. Its parameters, from
// memory: decay 0.177 + 0.217 e^m, threshold -0.7, noise 0.26, and between sessions the clock runs at
// 0.025 of its speed.
type power struct {
	traces [][]trace
	gift   []float64 // added to activation
}

type trace struct{ day, decay float64 }

func newPower(items int, rng *rand.Rand) *power {
	s := &power{traces: make([][]trace, items), gift: make([]float64, items)}
	ability := 0.25 * rng.NormFloat64()
	for i := range s.gift {
		s.gift[i] = ability + 0.3*rng.NormFloat64()
	}
	return s
}

func (s *power) activation(i int, day float64, extra ...trace) float64 {
	const dayLong = 24 * 60 * 60 * 0.025 // seconds as they count between sessions
	sum := 0.0
	for _, traces := range [][]trace{s.traces[i], extra} {
		for _, t := range traces {
			sum += math.Pow(max((day-t.day)*dayLong, 1), -t.decay)
		}
	}
	return math.Log(sum) + s.gift[i]
}

func recalled(activation float64) float64 { return 1 / (1 + math.Exp((-0.7-activation)/0.26)) }

func (s *power) chance(i int, day float64) float64 {
	if len(s.traces[i]) == 0 {
		return 0
	}
	return recalled(s.activation(i, day))
}

func (s *power) trace(i int, day float64) trace {
	t := trace{day: day, decay: 0.177}
	if len(s.traces[i]) > 0 {
		t.decay += 0.217 * math.Exp(s.activation(i, day)-s.gift[i])
	}
	t.decay = min(t.decay, 1)
	return t
}

func (s *power) learn(i, against int, day float64, remembered bool) {
	s.traces[i] = append(s.traces[i], s.trace(i, day))
}

func (s *power) gain(i, against int, day, later float64) float64 {
	return recalled(s.activation(i, later, s.trace(i, day))) - s.chance(i, later)
}

// confused remembers as exponential does, but also has to tell each item from those near it: knowing
// which is which is a memory of the pair, weak at first, and best learnt when the two are set against
// each other.
type confused struct {
	exponential
	near  [][]int
	pairs map[[2]int]*pairing
	skill float64
}

type pairing struct{ half, last float64 }

// mixed is the share of answers that go to a near item when nothing tells the two apart.
const mixed = 0.35

func newConfused(near [][]int, rng *rand.Rand) *confused {
	return &confused{exponential: *newExponential(len(near), rng), near: near, pairs: map[[2]int]*pairing{}, skill: math.Exp(0.3 * rng.NormFloat64())}
}

func (s *confused) pair(i, j int) *pairing {
	k := [2]int{min(i, j), max(i, j)}
	if s.pairs[k] == nil {
		s.pairs[k] = &pairing{}
	}
	return s.pairs[k]
}

// apart returns how well two items are told apart, 0 to 1. What was never met cannot be confused.
func (s *confused) apart(i, j int, day float64) float64 {
	p := s.pair(i, j)
	if s.half[j] == 0 {
		return 1
	}
	if p.half == 0 {
		return 0
	}
	return math.Exp2(-max(0, day-p.last) / p.half)
}

func (s *confused) chance(i int, day float64) float64 {
	p := s.exponential.chance(i, day)
	for _, j := range s.near[i] {
		p *= 1 - mixed*(1-s.apart(i, j, day))
	}
	return p
}

func (s *confused) nextPair(i, j int, day float64, remembered bool) float64 {
	p := s.pair(i, j)
	switch {
	case p.half == 0:
		return 3 * s.skill
	case remembered:
		return p.half * (1 + 4*(1-s.apart(i, j, day)))
	}
	return max(3*s.skill, 0.6*p.half)
}

func (s *confused) learn(i, against int, day float64, remembered bool) {
	if against >= 0 {
		p := s.pair(i, against)
		p.half, p.last = s.nextPair(i, against, day, remembered), day
	}
	s.exponential.learn(i, against, day, remembered)
}

func (s *confused) gain(i, against int, day, later float64) float64 {
	told := func(i, j int) float64 { return 1 - mixed*(1-s.apart(i, j, later)) }
	whole := 1.0
	for _, j := range s.near[i] {
		whole *= told(i, j)
	}
	if against < 0 {
		return s.exponential.gain(i, against, day, later) * whole
	}
	now, then := told(i, against), 0.0
	p := s.chance(i, day)
	for chance, remembered := range map[float64]bool{p: true, 1 - p: false} {
		half := s.nextPair(i, against, day, remembered)
		then += chance * (1 - mixed*(1-math.Exp2(-(later-day)/half)))
	}
	return (s.exponential.gain(i, against, day, later)+s.exponential.chance(i, later))*whole/now*then - s.chance(i, later) +
		s.chance(against, later)*(then/now-1)
}

// pupil is a student at work: answers take time, and what is not remembered is guessed.
type pupil struct {
	student
	near [][]int
	slow float64 // own pace, about 1
	rng  *rand.Rand
}

const choices = 5 // answers offered

// answer answers a question: the result, the item it was taken for, and the time to the answer and
// to have looked at what was right.
func (p *pupil) answer(item, against int, day float64) (r progress.Result, takenFor int, took, looked time.Duration) {
	if against < 0 {
		for _, n := range p.near[item] { // the drill offers what is met at random
			if p.chance(n, day) > 0 && p.rng.IntN(19) < choices-1 {
				against = n
			}
		}
	}
	chance := p.chance(item, day)
	remembered := p.rng.Float64() < chance
	r, takenFor = progress.Right, -1
	if !remembered && p.rng.IntN(choices) > 0 {
		r = progress.Wrong
		if near := p.near[item]; len(near) > 0 {
			takenFor = near[p.rng.IntN(len(near))]
		}
	}
	seconds := 7 - 3*chance
	look := 2.5
	if r != progress.Right {
		seconds, look = 1.3*seconds, 8
	}
	spread := func(s float64) time.Duration {
		return time.Duration(s * p.slow * math.Exp(0.35*p.rng.NormFloat64()) * float64(time.Second))
	}
	p.learn(item, against, day, remembered)
	return r, takenFor, spread(seconds), spread(look)
}
