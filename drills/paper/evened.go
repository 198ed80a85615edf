package paper

import (
	"math"
	"math/rand/v2"
	"slices"

	"sparetone/drills"
)

// candidate is a question that could stand in a place of a version.
type candidate struct {
	*drills.Question
	text string
	has  traits
	cost float64 // how little it is like the first version's question
}

// The costs of a version, beside how far each question's traits are from those of the first version's (from judgement).
const (
	costOfSpread = 15.0 // for one of a trait by which all its questions together are spread otherwise
	costOfChoice = 3.0  // for each choice that is another
	costOfAgain  = 20.0 // for each time that a question was asked already
	costOfPlace  = 40.0 // beside that, for each version that asks it in the same place
)

// evened takes a question for each place so that each is like the first version's, whose traits are wanted, and all together are spread as
// those are. It begins with what is most alike place by place and goes on as metal cools (simulated annealing; S. Kirkpatrick and others,
// "Optimization by Simulated Annealing", Science 220, 1983; from memory): a question is changed for another whatever that does to the whole
// at first, and at last only where it is better. So one place may become less alike in order that two others can become more so.
func evened(places [][]candidate, wanted []traits, rng *rand.Rand) []*drills.Question {
	c := newChosen(places, wanted)
	cost := c.cost()
	best, least := slices.Clone(c.at), cost
	for step := range coolingSteps {
		heat := hottest * math.Pow(coldest/hottest, float64(step)/coolingSteps)
		n := rng.IntN(len(places))
		was, next := c.at[n], rng.IntN(len(places[n]))
		if next == was {
			continue
		}
		c.take(n, next)
		now := c.cost()
		if now > cost && rng.Float64() >= math.Exp((cost-now)/heat) {
			c.take(n, was)
			continue
		}
		if cost = now; cost < least-1e-9 {
			least = cost
			copy(best, c.at)
		}
	}
	out := make([]*drills.Question, len(places))
	for n, k := range best {
		out[n] = places[n][k].Question
	}
	return out
}

// How the search cools, in the costs of a version.
const (
	coolingSteps = 100_000
	hottest      = 20.0
	coldest      = 0.2
)

// chosen is a question taken for each place, with how each trait is spread over all of them.
type chosen struct {
	places [][]candidate
	at     []int // the candidate that is taken, by place
	spread *spread
	alone  float64 // the costs of the questions by themselves, added up
	texts  map[string]int
	again  int // times that a question is taken which was taken already
}

// newChosen takes what costs the least by itself in each place.
func newChosen(places [][]candidate, wanted []traits) *chosen {
	c := &chosen{places: places, at: make([]int, len(places)), spread: newSpread(wanted), texts: map[string]int{}}
	for n, place := range places {
		for k := range place {
			if place[k].cost < place[c.at[n]].cost {
				c.at[n] = k
			}
		}
		taken := place[c.at[n]]
		c.spread.change(wanted[n], taken.has)
		c.add(taken)
	}
	return c
}

// take takes another question for a place.
func (c *chosen) take(place, candidate int) {
	was, is := c.places[place][c.at[place]], c.places[place][candidate]
	c.spread.change(was.has, is.has)
	if c.texts[was.text]--; c.texts[was.text] > 0 {
		c.again--
	}
	c.alone -= was.cost
	c.at[place] = candidate
	c.add(is)
}

// add adds what a question costs beside its part in how all are spread.
func (c *chosen) add(q candidate) {
	if c.texts[q.text]++; c.texts[q.text] > 1 {
		c.again++
	}
	c.alone += q.cost
}

// cost is what the version costs as it is.
func (c *chosen) cost() float64 {
	return c.alone + costOfAgain*float64(c.again) + costOfSpread*c.spread.off
}

// spread is how each trait is spread over the questions that are taken, and how over those of the first version.
type spread struct {
	wanted, have [traitCount][]float64 // in order
	far          [traitCount]float64
	off          float64 // how far they are from being spread alike, all traits together
}

// newSpread begins with the first version itself.
func newSpread(of []traits) *spread {
	s := &spread{}
	for trait := range s.wanted {
		for _, t := range of {
			s.wanted[trait] = append(s.wanted[trait], t[trait])
		}
		slices.Sort(s.wanted[trait])
		s.have[trait] = slices.Clone(s.wanted[trait])
	}
	return s
}

// change puts one question's traits in the place of another's. How far a trait is from being spread alike is what has to be moved how far
// (the distance of Wasserstein, times the number of questions); so no more are above any bound than there should be, wherever that lies.
func (s *spread) change(was, is traits) {
	for trait := range was {
		if was[trait] == is[trait] {
			continue
		}
		have := s.have[trait]
		n, _ := slices.BinarySearch(have, was[trait])
		for ; n+1 < len(have) && have[n+1] < is[trait]; n++ {
			have[n] = have[n+1]
		}
		for ; n > 0 && have[n-1] > is[trait]; n-- {
			have[n] = have[n-1]
		}
		have[n] = is[trait]
		far := 0.0
		for n, x := range have {
			far += math.Abs(x - s.wanted[trait][n])
		}
		s.off += far - s.far[trait]
		s.far[trait] = far
	}
}
