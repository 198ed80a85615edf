package pupils

import (
	"math"
	"math/rand/v2"
)

// mind is how things are kept in memory, or told apart. Times are in days.
type mind interface {
	// right returns the chance of a right answer where the item stands among these others; free says that it stands among none.
	right(item int, others []pairing, day float64) float64
	// known returns how likely an item is known, guessing taken out.
	known(item int, day float64) float64
	// learn is what a question does: known or shown.
	learn(item int, others []pairing, day float64, right bool)
	// gain returns how much more likely it is known on a later day for being asked now.
	gain(item int, others []pairing, day, later float64) float64
	// mistaken returns which of the others it is taken for when it is not known.
	mistaken(item int, others []pairing, day float64, rng *rand.Rand) int
	// begin makes an item known before any practice, well enough on the first day of the study.
	begin(item int)
}

// recalling is the part that all minds share which remember or do not.
type recalling struct{}

func guessed(p float64, others []pairing) float64 {
	if len(others) == 0 {
		return p
	}
	return p + (1-p)/float64(len(others)+1)
}

func (recalling) mistaken(_ int, others []pairing, _ float64, rng *rand.Rand) int {
	if len(others) == 0 {
		return -1
	}
	return others[rng.IntN(len(others))].other
}

// The numbers in the minds are chosen by us so that a student of middling ability remembers a new thing for about a day and needs
// some weeks to hold it for a month; no source, where none is named.

// halving forgets at a rate that halves what is left in a fixed time. Remembering makes the half-life longer, the more so the
// more was forgotten; a miss shortens it. Source of the form: Settles and Meeder, "A trainable spaced repetition model for
// language learning", ACL 2016.
type halving struct {
	recalling
	half []float64 // days; 0 if never met
	last []float64
	gift []float64 // ability on each item, about 1
}

func newHalving(items int, rng *rand.Rand) mind {
	s := &halving{half: make([]float64, items), last: make([]float64, items), gift: make([]float64, items)}
	ability := math.Exp(0.35 * rng.NormFloat64())
	for i := range s.gift {
		s.gift[i] = ability * math.Exp(0.5*rng.NormFloat64())
	}
	return s
}

func (s *halving) begin(i int) { s.half[i], s.last[i] = 400, float64(firstDay) }

func (s *halving) known(i int, day float64) float64 {
	if s.half[i] == 0 {
		return 0
	}
	return math.Exp2(-max(0, day-s.last[i]) / s.half[i])
}

func (s *halving) right(i int, others []pairing, day float64) float64 {
	return guessed(s.known(i, day), others)
}

func (s *halving) next(i int, day float64, remembered bool) float64 {
	first := 0.8 * s.gift[i]
	switch {
	case s.half[i] == 0:
		return first
	case remembered:
		return s.half[i] * (1 + 5*math.Sqrt(s.gift[i])*(1-s.known(i, day)))
	}
	return max(first, 0.4*s.half[i])
}

func (s *halving) learn(i int, _ []pairing, day float64, right bool) {
	s.half[i], s.last[i] = s.next(i, day, right), day
}

func (s *halving) gain(i int, _ []pairing, day, later float64) float64 {
	p := s.known(i, day)
	after := func(remembered bool) float64 { return math.Exp2(-(later - day) / s.next(i, day, remembered)) }
	return p*after(true) + (1-p)*after(false) - s.known(i, later)
}

// adding adds up traces, each fading as a power of time, faster if much was still there when it was laid. Source of the form:
// Pavlik and Anderson, Cognitive Science 29(4), 2005. Its parameters, from memory: decay 0.177 + 0.217 e^m, threshold -0.7,
// noise 0.26, and between sessions the clock runs at 0.025 of its speed.
type adding struct {
	recalling
	traces [][]trace
	gift   []float64 // added to activation
}

type trace struct{ day, decay, weight float64 }

func newAdding(items int, rng *rand.Rand) mind {
	s := &adding{traces: make([][]trace, items), gift: make([]float64, items)}
	ability := 0.25 * rng.NormFloat64()
	for i := range s.gift {
		s.gift[i] = ability + 0.3*rng.NormFloat64()
	}
	return s
}

func (s *adding) begin(i int) {
	s.traces[i] = []trace{{day: float64(firstDay) - 200, decay: 0.05, weight: 1.5 * math.Exp(-s.gift[i])}}
}

func (s *adding) activation(i int, day float64, extra ...trace) float64 {
	const dayLong = 24 * 60 * 60 * 0.025 // seconds as they count between sessions
	sum := 0.0
	for _, traces := range [][]trace{s.traces[i], extra} {
		for _, t := range traces {
			sum += t.weight * math.Exp(-t.decay*math.Log(max((day-t.day)*dayLong, 1)))
		}
	}
	return math.Log(sum) + s.gift[i]
}

func recalled(activation float64) float64 { return 1 / (1 + math.Exp((-0.7-activation)/0.26)) }

func (s *adding) known(i int, day float64) float64 {
	if len(s.traces[i]) == 0 {
		return 0
	}
	return recalled(s.activation(i, day))
}

func (s *adding) right(i int, others []pairing, day float64) float64 {
	return guessed(s.known(i, day), others)
}

func (s *adding) trace(i int, day float64) trace {
	t := trace{day: day, decay: 0.177, weight: 1}
	if len(s.traces[i]) > 0 {
		t.decay += 0.217 * math.Exp(s.activation(i, day)-s.gift[i])
	}
	t.decay = min(t.decay, 1)
	return t
}

func (s *adding) learn(i int, _ []pairing, day float64, _ bool) {
	s.traces[i] = append(s.traces[i], s.trace(i, day))
}

func (s *adding) gain(i int, _ []pairing, day, later float64) float64 {
	return recalled(s.activation(i, later, s.trace(i, day))) - s.known(i, later)
}

// scaled keeps each thing in pools that leak at different speeds, and each pool learns what the faster ones miss. Source of the
// form: Mozer, Pashler, Cepeda, Lindsey and Vul, "Predicting the optimal spacing of study", NIPS 2009, from memory; of the
// numbers only that what is recalled teaches more.
type scaled struct {
	recalling
	pools [][scales]float64
	last  []float64
	met   []bool
	gift  []float64
}

const scales = 6

var (
	leaks  = [scales]float64{0.15, 0.7, 3.5, 17, 85, 420} // days
	shares = [scales]float64{0.35, 0.22, 0.15, 0.11, 0.09, 0.08}
)

func newScaled(items int, rng *rand.Rand) mind {
	s := &scaled{pools: make([][scales]float64, items), last: make([]float64, items), met: make([]bool, items), gift: make([]float64, items)}
	ability := math.Exp(0.25 * rng.NormFloat64())
	for i := range s.gift {
		s.gift[i] = ability * math.Exp(0.3*rng.NormFloat64())
	}
	return s
}

func (s *scaled) begin(i int) {
	s.met[i], s.last[i] = true, float64(firstDay)
	for n := range s.pools[i] {
		s.pools[i][n] = 3
	}
}

func (s *scaled) at(i int, day float64) (pools [scales]float64) {
	for n, x := range s.pools[i] {
		pools[n] = x * math.Exp(-max(0, day-s.last[i])/leaks[n])
	}
	return pools
}

func strength(pools [scales]float64) float64 {
	sum := 0.0
	for n, x := range pools {
		sum += shares[n] * x
	}
	return min(1, sum)
}

func (s *scaled) known(i int, day float64) float64 { return strength(s.at(i, day)) }

func (s *scaled) right(i int, others []pairing, day float64) float64 {
	return guessed(s.known(i, day), others)
}

// after is what a question leaves.
func (s *scaled) after(i int, day float64, right bool) [scales]float64 {
	pools := s.at(i, day)
	rate := 0.5 * s.gift[i]
	if right {
		rate *= 2
	}
	sum, share := 0.0, 0.0
	for n := range pools {
		sum, share = sum+shares[n]*pools[n], share+shares[n]
		pools[n] += min(1, rate) * max(0, 1-sum/share)
	}
	return pools
}

func (s *scaled) learn(i int, _ []pairing, day float64, right bool) {
	s.pools[i], s.last[i], s.met[i] = s.after(i, day, right), day, true
}

func (s *scaled) gain(i int, _ []pairing, day, later float64) float64 {
	p := s.known(i, day)
	sum := 0.0
	for _, o := range []struct {
		chance float64
		right  bool
	}{{p, true}, {1 - p, false}} {
		pools := s.after(i, day, o.right)
		for n := range pools {
			pools[n] *= math.Exp(-(later - day) / leaks[n])
		}
		sum += o.chance * strength(pools)
	}
	return sum - s.known(i, later)
}
