package pupils

import (
	"math"
	"math/rand/v2"
	"testing"
)

func isNear(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-9*max(1, math.Abs(want)) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

func dice() *rand.Rand { return rand.New(rand.NewPCG(1, 2)) }

// spread checks that the logarithms of numbers lie about 0 with two deviations: that of whole students, each of whom has some of the
// numbers, and that of the numbers of one student.
func spread(t *testing.T, what string, students [][]float64, between, within float64) {
	t.Helper()
	mean, own, n := 0.0, 0.0, 0.0
	var means []float64
	for _, all := range students {
		sum := 0.0
		for _, x := range all {
			sum += math.Log(x)
		}
		m := sum / float64(len(all))
		means = append(means, m)
		for _, x := range all {
			own += (math.Log(x) - m) * (math.Log(x) - m)
			n++
		}
		mean += m / float64(len(students))
	}
	of := 0.0
	for _, m := range means {
		of += (m - mean) * (m - mean) / float64(len(means))
	}
	if got := math.Sqrt(own / n); math.Abs(got-within) > 0.04*within {
		t.Errorf("%s of one student deviate by %.3f, want %.3f", what, got, within)
	}
	if got := math.Sqrt(of); math.Abs(got-between) > 0.04*between {
		t.Errorf("%s of students deviate by %.3f, want %.3f", what, got, between)
	}
	if math.Abs(mean) > 0.05*between {
		t.Errorf("%s lie about e^%.3f", what, mean)
	}
}

// drawn are so many students' numbers.
func drawn(draw func(rng *rand.Rand) []float64) (all [][]float64) {
	rng := dice()
	for range 3000 {
		all = append(all, draw(rng))
	}
	return all
}

const manyItems = 120

func exps(xs []float64) []float64 {
	out := make([]float64, len(xs))
	for i, x := range xs {
		out[i] = math.Exp(x)
	}
	return out
}

func TestHowStudentsDiffer(t *testing.T) {
	spread(t, "half-lives", drawn(func(rng *rand.Rand) []float64 { return newHalving(manyItems, rng).(*halving).gift }), 0.353, 0.5)
	spread(t, "activations", drawn(func(rng *rand.Rand) []float64 { return exps(newAdding(manyItems, rng).(*adding).gift) }), 0.2515, 0.3)
	spread(t, "rates", drawn(func(rng *rand.Rand) []float64 { return newScaled(manyItems, rng).(*scaled).gift }), 0.2515, 0.3)
}

// A new thing has a half-life of 0.8 days. Right answers make it longer by five times what was forgotten, a miss leaves two fifths of
// it, or that of a new thing.
func TestHalving(t *testing.T) {
	s := &halving{half: make([]float64, 1), last: make([]float64, 1), gift: []float64{1}}
	isNear(t, "before it was met", s.known(0, 3), 0)
	s.learn(0, nil, 10, false)
	isNear(t, "after a day", s.known(0, 11), math.Exp2(-1/0.8))
	isNear(t, "among three", s.right(0, make([]pairing, 2), 11), math.Exp2(-1/0.8)+(1-math.Exp2(-1/0.8))/3)
	known := s.known(0, 11)
	longer := 0.8 * (1 + 5*(1-known))
	after := func(half float64) float64 { return math.Exp2(-7 / half) }
	isNear(t, "what it gains", s.gain(0, nil, 11, 18), known*after(longer)+(1-known)*after(0.8)-math.Exp2(-8/0.8))
	s.learn(0, nil, 11, true)
	isNear(t, "its half-life after a right answer", s.half[0], longer)
	s.half[0] = 10
	s.learn(0, nil, 11, false)
	isNear(t, "after a miss", s.half[0], 4)
	s.half[0] = 1
	s.learn(0, nil, 11, false)
	isNear(t, "after a miss of something short", s.half[0], 0.8)
	s.gift[0] = 4
	isNear(t, "of the gifted at first", (&halving{half: []float64{0}, last: []float64{0}, gift: []float64{4}}).next(0, 0, false), 3.2)
	s.half[0], s.last[0] = 2, 0
	isNear(t, "of the gifted later", s.next(0, 2, true), 2*(1+5*2*0.5))
	s.begin(0)
	isNear(t, "known from before", s.half[0], 400)
	isNear(t, "and on the first day", s.known(0, float64(firstDay)), 1)
}

// Traces fade as a power of seconds, of which a day counts a fortieth, the faster the more was still there.
func TestAdding(t *testing.T) {
	s := &adding{traces: make([][]trace, 1), gift: []float64{0}}
	isNear(t, "before it was met", s.known(0, 3), 0)
	s.learn(0, nil, 10, false)
	isNear(t, "its first trace", s.traces[0][0].decay, 0.177)
	a := -0.177 * math.Log(2160)
	isNear(t, "its activation a day later", s.activation(0, 11), a)
	isNear(t, "how likely it is recalled then", s.known(0, 11), 1/(1+math.Exp((-0.7-a)/0.26)))
	isNear(t, "right at once", s.activation(0, 10), 0)
	isNear(t, "among two", s.right(0, make([]pairing, 1), 11), s.known(0, 11)+(1-s.known(0, 11))/2)
	before := s.known(0, 18)
	gain := s.gain(0, nil, 11, 18)
	s.learn(0, nil, 11, true)
	isNear(t, "the decay of the next", s.traces[0][1].decay, 0.177+0.217*math.Exp(a))
	isNear(t, "what it gained", s.known(0, 18)-before, gain)
	gifted := &adding{traces: [][]trace{{{day: 10, decay: 0.177, weight: 1}}}, gift: []float64{0.5}}
	isNear(t, "of the gifted", gifted.activation(0, 11), a+0.5)
	isNear(t, "its decay is no faster for that", gifted.trace(0, 11).decay, 0.177+0.217*math.Exp(a))
	for range 9 {
		gifted.learn(0, nil, 12, true)
	}
	isNear(t, "the fastest decay", gifted.traces[0][9].decay, 1)
	gifted.begin(0)
	isNear(t, "known from before", gifted.activation(0, float64(firstDay)), math.Log(1.5)-0.05*math.Log(200*2160))
}

// Six pools leak at different speeds, and each learns what it and the faster ones miss, twice as much from a right answer.
func TestScaled(t *testing.T) {
	s := &scaled{pools: make([][scales]float64, 1), last: make([]float64, 1), met: make([]bool, 1), gift: []float64{1}}
	s.learn(0, nil, 10, false)
	pools := [scales]float64{0.5, 0.5, 0.5, 0.5, 0.5, 0.5}
	if s.pools[0] != pools || !s.met[0] {
		t.Errorf("after a miss: %v", s.pools[0])
	}
	isNear(t, "known at once", s.known(0, 10), 0.5)
	want := 0.0
	for n, days := range []float64{0.15, 0.7, 3.5, 17, 85, 420} {
		want += []float64{0.35, 0.22, 0.15, 0.11, 0.09, 0.08}[n] * 0.5 * math.Exp(-1/days)
	}
	isNear(t, "known after a day", s.known(0, 11), want)
	isNear(t, "among four", s.right(0, make([]pairing, 3), 11), want+(1-want)/4)
	faster, share := 0.0, 0.0
	for n, x := range s.at(0, 11) {
		faster, share = faster+shares[n]*x, share+shares[n]
		isNear(t, "a pool after a right answer", s.after(0, 11, true)[n], x+1-faster/share)
		isNear(t, "a pool after a miss", s.after(0, 11, false)[n], x+0.5*(1-faster/share))
	}
	after := func(right bool) float64 {
		sum := 0.0
		for n, x := range s.after(0, 11, right) {
			sum += shares[n] * x * math.Exp(-7/leaks[n])
		}
		return sum
	}
	isNear(t, "what it gains", s.gain(0, nil, 11, 18), want*after(true)+(1-want)*after(false)-s.known(0, 18))
	s.gift[0] = 3
	isNear(t, "no more is learned than is missed", s.after(0, 11, true)[0], s.at(0, 11)[0]+1-s.at(0, 11)[0])
	s.begin(0)
	isNear(t, "known from before", s.known(0, float64(firstDay)), 1)
	isNear(t, "and half a year later", s.known(0, float64(firstDay)+182), min(1, 3*(0.11*math.Exp(-182.0/17)+0.09*math.Exp(-182.0/85)+0.08*math.Exp(-182.0/420)+0.15*math.Exp(-182/3.5)+0.22*math.Exp(-182/0.7)+0.35*math.Exp(-182/0.15))))
}

// Who guesses takes a thing for any of the others alike, and what is answered freely for nothing.
func TestGuessesAreOfAllOthersAlike(t *testing.T) {
	rng := dice()
	var m recalling
	if got := m.mistaken(0, nil, 0, rng); got != -1 {
		t.Errorf("freely answered, it is taken for %d", got)
	}
	isNear(t, "freely answered", guessed(0.3, nil), 0.3)
	count := map[int]int{}
	for range 3000 {
		count[m.mistaken(0, []pairing{{other: 4}, {other: 7}, {other: -1}}, 0, rng)]++
	}
	for _, other := range []int{4, 7, -1} {
		if n := count[other]; n < 900 || n > 1100 {
			t.Errorf("taken %d times of 3000 for %d", n, other)
		}
	}
}
