package pupils

import (
	"math"
	"slices"
)

// What nobody can teach more than
//
// Where things are remembered each by itself, what a student knows in the end is a sum over things, and they compete for nothing but time.
// So nobody teaches more than the most that each thing could come to if time were bought by the second: for any price of a second,
//
//	known ≤ price × seconds there are + sum over things of the most of (known of it − price × seconds asked of it),
//
// and the lowest such sum, over all prices, is a bound for every teacher whatever (Lagrange's relaxation: H. Everett, Operations Research 11,
// 1963; from memory). The most of a single thing is found by going through all ways to ask it on so many days, up to some times a day, each
// answer told before the next is chosen.
//
// A teacher who does not see into heads does not know how easy a thing is for somebody, and whether it was known before, but by the answers to
// it. Here it is given the rest: how the mind works, the student's ability and pace, and how abilities on single things are spread. What it
// believes of one is a table of weights. Nobody who chooses by answers has more than that, whatever the order.
//
// Not exact are two things: abilities are taken at seven values (Gauss and Hermite's rule), and all of a day is asked at its beginning, but for
// what is asked once more, a session's time later. Prices are some in a row, which makes the bound no lower than it is.

// independent is a mind whose things are remembered each by itself.
type independent interface {
	mind
	// oneThing is a mind of the same make that holds a single thing once for each gift.
	oneThing(gifts []float64) independent
	// fork is the same mind, to go on from in another way.
	fork() independent
	// gifted returns about which mean a student's abilities on things lie, and how far they deviate, as oneThing takes them.
	gifted() (mean, deviation float64)
}

func (s *adding) oneThing(gifts []float64) independent {
	return &adding{traces: make([][]trace, len(gifts)), gift: gifts}
}

func (s *adding) fork() independent {
	f := &adding{traces: slices.Clone(s.traces), gift: s.gift}
	for i, traces := range f.traces {
		f.traces[i] = slices.Clip(traces) // what is added to one copy is not in the other
	}
	return f
}

func (s *adding) gifted() (mean, deviation float64) { return average(s.gift), 0.3 }

func (s *halving) oneThing(gifts []float64) independent {
	return &halving{half: make([]float64, len(gifts)), last: make([]float64, len(gifts)), gift: exponents(gifts)}
}

func (s *halving) fork() independent {
	return &halving{half: slices.Clone(s.half), last: slices.Clone(s.last), gift: s.gift}
}

func (s *halving) gifted() (mean, deviation float64) { return average(logarithms(s.gift)), 0.5 }

func (s *scaled) oneThing(gifts []float64) independent {
	return &scaled{pools: make([][scales]float64, len(gifts)), last: make([]float64, len(gifts)), met: make([]bool, len(gifts)), gift: exponents(gifts)}
}

func (s *scaled) fork() independent {
	return &scaled{pools: slices.Clone(s.pools), last: slices.Clone(s.last), met: slices.Clone(s.met), gift: s.gift}
}

func (s *scaled) gifted() (mean, deviation float64) { return average(logarithms(s.gift)), 0.3 }

func average(xs []float64) float64 {
	sum := 0.0
	for _, x := range xs {
		sum += x / float64(len(xs))
	}
	return sum
}

func exponents(xs []float64) (out []float64) {
	for _, x := range xs {
		out = append(out, math.Exp(x))
	}
	return out
}

func logarithms(xs []float64) (out []float64) {
	for _, x := range xs {
		out = append(out, math.Log(x))
	}
	return out
}

// Points and weights of Gauss and Hermite's rule for a normal distribution. Source: M. Abramowitz and I. Stegun, Handbook of Mathematical
// Functions (1964), table 25.10, n = 7, divided by √π and stretched by √2 (from memory; a test adds up what they give).
var (
	hermiteAt     = [...]float64{-3.750439717725742, -2.366759410734541, -1.154405394739968, 0, 1.154405394739968, 2.366759410734541, 3.750439717725742}
	hermiteWeighs = [...]float64{0.000548268855972, 0.030757123967586, 0.240123178605013, 0.457142857142857, 0.240123178605013, 0.030757123967586, 0.000548268855972}
)

// search is what the most of a single thing is sought for.
type search struct {
	days   int       // of practice
	aDay   int       // times that it may be asked on one day
	until  float64   // day on which it counts whether it is known
	guess  float64   // chance to guess it
	begun  []float64 // by column: how likely it is known then without practice
	prices []float64 // of a second
	worth  []float64 // by price: what a right answer is worth beside, and the share of them that is wished for costs
	share  float64   // of right answers that is wished for
}

// againAfter is how much later, in days, something is asked once more on the same day: a session of ten minutes.
const againAfter = 10.0 / (24 * 60)

// usualSeconds is how long a question and the look at its answer take a student of usual pace on the average who is right with a chance.
func usualSeconds(chance float64) float64 {
	return usualSpread * (chance*(7-3*chance+2.5) + (1-chance)*(1.3*(7-3*chance)+8))
}

// usualSpread is the mean of what each time is multiplied by at random.
var usualSpread = math.Exp(0.35 * 0.35 / 2)

// most returns for each price the most that a thing may come to from a day on, of which it was asked so many times on that day. The weights say
// how likely each column is, all of them together how likely it is to come here.
func (s search) most(day, asked int, m independent, weights []float64) []float64 {
	if day == s.days {
		sum := 0.0
		for z, w := range weights {
			sum += w * (m.known(z, float64(firstDay)+s.until) - s.begun[z])
		}
		return slices.Repeat([]float64{sum}, len(s.prices))
	}
	best := s.most(day+1, 0, m, weights)
	if asked == s.aDay {
		return best
	}
	at := float64(firstDay) + float64(day) + float64(asked)*againAfter
	hit, miss := m.fork(), m.fork()
	right, wrong := make([]float64, len(weights)), make([]float64, len(weights))
	took, more := 0.0, 0.0
	for z, w := range weights {
		known := m.known(z, at)
		chance := known + (1-known)*s.guess
		right[z], wrong[z] = w*chance, w*(1-chance)
		took += w * usualSeconds(chance)
		more += w * (chance - s.share)
		hit.learn(z, nil, at, true)
		miss.learn(z, nil, at, false)
	}
	ifRight, ifWrong := s.most(day, asked+1, hit, right), s.most(day, asked+1, miss, wrong)
	for l := range best {
		best[l] = max(best[l], ifRight[l]+ifWrong[l]-s.prices[l]*took+s.worth[l]*more)
	}
	return best
}

// Wish is what a bound is sought for.
type Wish struct {
	Days    int     // of practice; what is known is counted a week after the last of them
	ADay    int     // times that a thing may be asked on one day
	Minutes float64 // of practice in all
	Share   float64 // of right answers over all of them, at least; 0 if nobody minds
	Sees    bool    // the teacher sees how easy each thing is for the student, and what was known before
}

// Bound returns how many more things than without practice a student knows at the most on the average, whoever teaches, and false if the
// student's things are not remembered each by itself.
func Bound(p *Pupil, w Wish) (known float64, ok bool) {
	prices, worth := pricesOf(w.Share)
	sum := make([]float64, len(prices))
	for l, price := range prices {
		sum[l] = price * w.Minutes * 60 / p.slow
	}
	mosts := map[thing][]float64{}
	for i := range p.Items {
		m, is := p.of(i).(independent)
		if !is {
			return 0, false
		}
		guess := 0.0
		if p.among[i] > 0 {
			guess = 1 / float64(p.among[i])
		}
		of := func(before float64) []float64 {
			t := thing{p.Items[i].Ear, guess, before}
			if mosts[t] == nil {
				mosts[t] = t.most(m, w, prices, worth)
			}
			return mosts[t]
		}
		before := p.likely[i]
		if w.Sees {
			before = 0
			if p.before[i] {
				before = 1
			}
		}
		// The most is convex in how likely something was known before, so it lies below what lies between two of a few chances.
		low := math.Floor(before*beliefs) / beliefs
		high := min(1, low+1.0/beliefs)
		for l := range sum {
			share := (before - low) * beliefs
			sum[l] += (1-share)*of(low)[l] + share*of(high)[l]
		}
	}
	return slices.Min(sum), true
}

// beliefs are into how many parts the chances are divided that something was known before.
const beliefs = 20

// thing is what all things have in common that come to the same.
type thing struct {
	ear    bool
	guess  float64
	before float64 // how likely it was known before
}

// most returns for each price the most that a thing may come to.
func (t thing) most(m independent, w Wish, prices, worth []float64) []float64 {
	mean, deviation := m.gifted()
	var all []column
	for z, at := range hermiteAt {
		for _, c := range []column{{mean + deviation*at, false, (1 - t.before) * hermiteWeighs[z]}, {mean + deviation*at, true, t.before * hermiteWeighs[z]}} {
			if c.weight > 0 {
				all = append(all, c)
			}
		}
	}
	s := &search{days: w.Days, aDay: w.ADay, until: float64(w.Days-1) + Later[0], guess: t.guess, prices: prices, worth: worth, share: w.Share}
	if !w.Sees {
		return s.of(m, all)
	}
	sum := make([]float64, len(prices))
	for z := range all {
		for l, v := range s.of(m, all[z:z+1]) {
			sum[l] += v
		}
	}
	return sum
}

// column is what may be true of a thing: how easy it is, and whether it was known before; and how likely that is.
type column struct {
	gift   float64
	before bool
	weight float64
}

// of returns the most for somebody who knows which columns may be true and how likely each is.
func (s search) of(m independent, all []column) []float64 {
	var gifts, weights []float64
	for _, c := range all {
		gifts, weights = append(gifts, c.gift), append(weights, c.weight)
	}
	one := m.oneThing(gifts)
	for z, c := range all {
		if c.before {
			one.begin(z)
		}
		s.begun = append(s.begun, one.known(z, float64(firstDay)+s.until))
	}
	return s.most(0, 0, one, weights)
}

// pricesOf are prices of a second, each with some worths of a right answer where a share of them is wished for.
func pricesOf(share float64) (prices, worth []float64) {
	for price := 0.0005; price < 0.04; price *= 1.15 {
		prices, worth = append(prices, price), append(worth, 0)
		for _, w := range []float64{0.01, 0.02, 0.03, 0.04, 0.06, 0.08, 0.1, 0.12, 0.15, 0.2, 0.25, 0.3, 0.4, 0.6} {
			if share > 0 {
				prices, worth = append(prices, price), append(worth, w)
			}
		}
	}
	return prices, worth
}
