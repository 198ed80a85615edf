package pupils

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"sparetone/progress/plan"
)

// chords is a course of three kinds of chords told by ear among four, each near the two others, the same kinds to be named by sight
// among four, and one thing that is spelled.
func chords() *Course {
	var items []plan.Candidate
	kinds := []string{"major", "minor", "seventh"}
	for _, drill := range []string{"ear", "eye"} {
		for _, kind := range kinds {
			c := plan.Candidate{Item: drill + "/" + kind + "/u", Drill: drill, Ear: drill == "ear"}
			for _, other := range kinds {
				if other != kind {
					c.Near = append(c.Near, drill+"/"+other+"/u")
				}
			}
			items = append(items, c)
		}
	}
	items = append(items, plan.Candidate{Item: "spell/major/u", Drill: "spell", After: []string{"eye/major/u"}})
	return NewCourse(items, func(c plan.Candidate) int {
		if c.Drill == "spell" {
			return 0
		}
		return 4
	})
}

// even is an ear of middling speed that tells nothing yet.
func even(c *Course) *telling {
	s := &telling{Course: c, kinds: make([]ability, c.kinds), drill: make([]ability, c.pairs), rate: 1, kept: halfKept}
	for i := range s.drill {
		s.drill[i].most = 3.5
	}
	return s
}

// A pair of kinds is the same in every drill, a pair in a drill is its own; each item stands beside all else too.
func TestPairsOfKinds(t *testing.T) {
	c := chords()
	if c.kinds != 6 || c.pairs != 13 {
		t.Errorf("%d pairs of kinds, %d in drills", c.kinds, c.pairs)
	}
	ear, eye := c.near[0][0], c.near[3][0]
	if ear.other != 1 || eye.other != 4 || ear.kinds != eye.kinds || ear.pair == eye.pair {
		t.Errorf("major and minor by ear %+v, by sight %+v", ear, eye)
	}
	if back := c.near[1][0]; back.other != 0 || back.kinds != ear.kinds || back.pair != ear.pair {
		t.Errorf("minor and major are %+v", back)
	}
	if c.rest[0].other != -1 || c.rest[0].kinds != c.rest[3].kinds || c.rest[0].kinds == c.rest[1].kinds {
		t.Errorf("beside all else: %+v, %+v", c.rest[0], c.rest[1])
	}
	pair := NewCourse([]plan.Candidate{{Item: "same/major-or-minor/u", Drill: "same"}, {Item: "ear/major/u", Drill: "ear", Near: []string{"ear/minor/u"}}, {Item: "ear/minor/u", Drill: "ear"}}, func(plan.Candidate) int { return 2 })
	if pair.rest[0].kinds != pair.near[1][0].kinds {
		t.Error("a thing that is a pair is another pair of kinds")
	}
}

// A contrast adds 0.45 to a d' of 0, half of it to the kinds and half to the drill; less, the greater it is, and 0.3 of that to those
// that only stand by.
func TestWhatAContrastAdds(t *testing.T) {
	s := even(chords())
	major := s.near[0]
	isNear(t, "among two at first", s.right(0, major[:1], 10), 0.5)
	s.learn(0, major, 10, false)
	isNear(t, "what was set against it", s.apart(major[0], 10), 0.45)
	isNear(t, "its half of the kinds, in another drill", s.apart(s.near[3][0], 10), 0.225)
	isNear(t, "what stood by", s.apart(major[1], 10), 0.3*0.45)
	isNear(t, "among two then", s.right(0, major[:1], 10), 1/(1+math.Exp(-1.2*0.45)))
	s.learn(0, major[:1], 10.01, true)
	isNear(t, "a second contrast", s.apart(major[0], 10.01), 0.45+0.45*(1-0.45/3.5))
	s.rate = 2
	isNear(t, "a quick ear", s.adds(major[1], 10, 1), 0.45*(1-0.135/3.5))
}

// Half of what a day added is lost over night, what is left fades as a power of months; what was known before does not.
func TestNightsAndMonths(t *testing.T) {
	a := ability{held: 1, today: 0.6, trials: 4, last: 10, known: 0.5}
	isNear(t, "on the same day", a.at(10.49, halfKept), 2.1)
	isNear(t, "half a day later", a.at(10.5, halfKept), 1.3*math.Pow(1+0.5/30, -0.12)+0.5)
	isNear(t, "a month later", a.at(40, halfKept), 1.3*math.Pow(2, -0.12)+0.5)
	isNear(t, "of many trials", a.at(40, keptOfMany), (1+0.6*4/8)*math.Pow(2, -0.12)+0.5)
	isNear(t, "one trial of many", keptOfMany(1), 0.2)
	a.settle(10.4, halfKept)
	if a.today != 0.6 || a.last != 10.4 {
		t.Errorf("on the same day it is settled: %+v", a)
	}
	a.settle(40.4, halfKept)
	isNear(t, "settled", a.held, 1.3*math.Pow(2, -0.12))
	isNear(t, "and still known", a.at(40.4, halfKept), 1.3*math.Pow(2, -0.12)+0.5)
	if a.today != 0 || a.trials != 0 {
		t.Errorf("%+v", a)
	}
	s := even(chords())
	s.learn(0, s.near[0], 10, true)
	for _, c := range []struct {
		pair pairing
		want float64
	}{{s.near[0][0], 1}, {s.near[0][1], 0.3}} {
		isNear(t, "trials", s.drill[c.pair.pair].trials, c.want)
	}
}

// Known is what is told among all that is near and all else, guessing taken out.
func TestWhatIsKnownByEar(t *testing.T) {
	s := even(chords())
	isNear(t, "nothing", s.known(0, 10), 0)
	s.drill[s.rest[0].pair].held = 1
	p := 1 / (3 + math.Exp(-1.2))
	isNear(t, "told from all else", s.known(0, 0), (p-0.25)/0.75)
	s.begin(0)
	p = 1 / (1 + 2*math.Exp(-1.2*3.6) + math.Exp(-1.2*4.6))
	isNear(t, "known from before", s.known(0, 0), (p-0.25)/0.75)
	two := even(NewCourse([]plan.Candidate{{Item: "ear/a/u", Drill: "ear", Ear: true}}, func(plan.Candidate) int { return 0 }))
	two.drill[0].held = 1
	isNear(t, "freely answered it is one of two", two.known(0, 0), 2/(1+math.Exp(-1.2))-1)
}

// Asking something now gains as much as the student knows more later, of both of the pair.
func TestWhatAContrastGains(t *testing.T) {
	s := even(chords())
	s.drill[s.rest[0].pair].held, s.drill[s.rest[1].pair].held = 1, 1
	major := s.near[0][:1]
	before := s.known(0, 17) + s.known(1, 17)
	gain := s.gain(0, major, 10, 17)
	isNear(t, "nothing was learned", s.known(0, 17)+s.known(1, 17), before)
	s.learn(0, major, 10, true)
	isNear(t, "both of the pair", s.known(0, 17)+s.known(1, 17)-before, gain)
	if gain <= 0 || s.gain(0, nil, 10, 17) != 0 {
		t.Errorf("gains %v", gain)
	}
	rest := s.rest[:1]
	before = s.known(0, 17)
	gain = s.gain(0, rest, 10, 17)
	s.learn(0, rest, 10, true)
	isNear(t, "of what is told from all else", s.known(0, 17)-before, gain)
}

// Whoever mishears hears rather what is told least well.
func TestWhatIsMisheard(t *testing.T) {
	s := even(chords())
	s.drill[s.near[0][0].pair].held = 1
	rng, count := dice(), map[int]int{}
	const n = 6000
	for range n {
		count[s.mistaken(0, s.near[0], 0, rng)]++
	}
	if share, want := float64(count[1])/n, 1/(1+math.Exp(1.2)); math.Abs(share-want) > 0.02 || count[1]+count[2] != n {
		t.Errorf("taken for minor in %.3f, want %.3f: %v", share, want, count)
	}
	if got := s.mistaken(0, nil, 0, rng); got != -1 {
		t.Errorf("among none it is taken for %d", got)
	}
}

func TestHowEarsDiffer(t *testing.T) {
	var items []plan.Candidate
	for i := range 40 {
		items = append(items, plan.Candidate{Item: fmt.Sprintf("ear/%d/u", i), Drill: "ear", Near: []string{fmt.Sprintf("ear/%d/u", (i+1)%40)}})
	}
	c := NewCourse(items, func(plan.Candidate) int { return 2 })
	of := func(what func(s *telling) []float64) [][]float64 {
		rng := rand.New(rand.NewPCG(3, 4))
		var all [][]float64
		for range 2000 {
			all = append(all, what(newTelling(c, rng, halfKept)))
		}
		return all
	}
	size := math.Sqrt(1.0 / float64(c.kinds))
	spread(t, "kinds", of(func(s *telling) (out []float64) {
		for _, a := range s.kinds {
			out = append(out, a.held/0.15)
		}
		return out
	}), 0.4*size, 0.4)
	spread(t, "limits", of(func(s *telling) (out []float64) {
		for _, a := range s.drill {
			out = append(out, a.most/3.5)
		}
		return out
	}), 0.15*size, 0.15)
	spread(t, "pairs of a drill", of(func(s *telling) (out []float64) {
		for _, n := range s.near {
			out = append(out, s.drill[n[0].pair].held/0.15)
		}
		return out
	}), 0.4*math.Sqrt(1.0/40), 0.4)
	spread(t, "what is far off", of(func(s *telling) (out []float64) {
		for _, r := range s.rest {
			out = append(out, (s.drill[r.pair].held-0.6)/0.15)
		}
		return out
	}), 0.4*math.Sqrt(1.0/40), 0.4)
	var rates [][]float64
	for _, one := range of(func(s *telling) []float64 { return []float64{s.rate} }) {
		rates = append(rates, one)
	}
	sum := 0.0
	for _, r := range rates {
		sum += math.Log(r[0]) * math.Log(r[0]) / float64(len(rates))
	}
	if got := math.Sqrt(sum); math.Abs(got-0.3) > 0.015 {
		t.Errorf("speeds deviate by %.3f", got)
	}
}
