package pupils

import (
	"math"
	"math/rand/v2"
)

// telling tells things by ear from those near them: each pair by its d', which grows with every contrast, less the greater it is.
// Half of what a contrast teaches is of its drill, half of the two kinds in whatever drill. Of what a day has taught a part is
// lost over night, and what is left fades slowly. Of the forms: signal detection among several, Green and Swets 1966, with a
// logistic in the place of the normal distribution; the numbers are chosen by us.
type telling struct {
	*Course
	kinds, drill []ability // of pairs of kinds, and of pairs in a drill
	rate         float64   // own speed, about 1
	kept         func(trials float64) float64
}

// ability is a part of a d'.
type ability struct {
	held   float64 // what the nights have left
	today  float64 // what the last day of practice added
	trials float64 // contrasts on that day
	last   float64 // when that was
	most   float64 // what it grows towards, of the pair
	known  float64 // held from before, which does not fade
}

const (
	slope  = 1.2  // of the logistic, so that d' says about what it says of a normal distribution
	speed  = 0.45 // d' that the first contrast adds
	beside = 0.3  // share of that where a pair is among the answers and not the one that is set against the other
)

// halfKept loses half over night.
func halfKept(float64) float64 { return 0.5 }

// keptOfMany keeps next to nothing of a few contrasts of a day, and most of many. Source of the form: trials add up within a day
// towards what a day keeps, Wright and Sabin 2007; Little, Zhang and Wright, Current Biology 27, 2017.
func keptOfMany(trials float64) float64 { return trials / (trials + 4) }

func newTelling(c *Course, rng *rand.Rand, kept func(float64) float64) *telling {
	s := &telling{Course: c, kinds: make([]ability, c.kinds), drill: make([]ability, c.pairs), rate: math.Exp(0.3 * rng.NormFloat64()), kept: kept}
	for i := range s.kinds {
		s.kinds[i].held = 0.15 * math.Exp(0.4*rng.NormFloat64())
	}
	for i := range s.drill {
		s.drill[i].held = 0.15 * math.Exp(0.4*rng.NormFloat64())
		s.drill[i].most = 3.5 * math.Exp(0.15*rng.NormFloat64())
	}
	for _, r := range c.rest { // what lies far off is told better from the start
		s.drill[r.pair].held += 0.6
	}
	return s
}

func (a *ability) at(day float64, kept func(float64) float64) float64 {
	if day-a.last < 0.5 {
		return a.held + a.today + a.known
	}
	return (a.held+a.today*kept(a.trials))*math.Pow(1+(day-a.last)/30, -0.12) + a.known
}

// settle brings an ability up to a day.
func (a *ability) settle(day float64, kept func(float64) float64) {
	if day-a.last >= 0.5 {
		a.held, a.today, a.trials = a.at(day, kept)-a.known, 0, 0
	}
	a.last = day
}

func (s *telling) apart(p pairing, day float64) float64 {
	return s.kinds[p.kinds].at(day, s.kept) + s.drill[p.pair].at(day, s.kept)
}

func (s *telling) begin(i int) {
	for _, p := range append([]pairing{s.rest[i]}, s.near[i]...) {
		s.kinds[p.kinds].known, s.drill[p.pair].known = 1.8, 1.8
	}
}

// right returns the chance, 0 to 1, that an item is told from all others at the question.
func (s *telling) right(i int, others []pairing, day float64) float64 {
	sum := 1.0
	for _, p := range others {
		sum += math.Exp(-slope * s.apart(p, day))
	}
	return 1 / sum
}

// usual are the answers that an item stands among where it counts: all near it, and all else.
func (s *telling) usual(i int) []pairing {
	others := append([]pairing{}, s.near[i]...)
	for len(others) < max(2, s.among[i])-1 {
		others = append(others, s.rest[i])
	}
	return others[:max(2, s.among[i])-1]
}

func (s *telling) known(i int, day float64) float64 {
	others := s.usual(i)
	guess := 1 / float64(len(others)+1)
	return max(0, (s.right(i, others, day)-guess)/(1-guess))
}

// adds is what a contrast adds to each half of a pair.
func (s *telling) adds(p pairing, day, share float64) float64 {
	return share * speed / 2 * s.rate * max(0, 1-s.apart(p, day)/s.drill[p.pair].most)
}

// learn takes the first of the others for what the item was set against.
func (s *telling) learn(i int, others []pairing, day float64, _ bool) {
	share := 1.0
	for _, p := range others {
		added := s.adds(p, day, share)
		for _, a := range []*ability{&s.kinds[p.kinds], &s.drill[p.pair]} {
			a.settle(day, s.kept)
			a.today += added
			a.trials += share
		}
		share = beside
	}
}

func (s *telling) gain(i int, others []pairing, day, later float64) float64 {
	if len(others) == 0 {
		return 0
	}
	p := others[0]
	of := func() float64 {
		sum := s.known(i, later)
		if p.other >= 0 {
			sum += s.known(p.other, later)
		}
		return sum
	}
	before := of()
	k, d := s.kinds[p.kinds], s.drill[p.pair]
	s.learn(i, others[:1], day, true)
	after := of()
	s.kinds[p.kinds], s.drill[p.pair] = k, d
	return after - before
}

func (s *telling) mistaken(i int, others []pairing, day float64, rng *rand.Rand) int {
	sum := 0.0
	for _, p := range others {
		sum += math.Exp(-slope * s.apart(p, day))
	}
	at := rng.Float64() * sum
	for _, p := range others {
		if at -= math.Exp(-slope * s.apart(p, day)); at < 0 {
			return p.other
		}
	}
	return -1
}
