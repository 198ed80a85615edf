package pupils

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"sparetone/progress/plan"
)

// The rule's values have the moments of a normal distribution: 1, 0, 1, 0, 3, 0, 15, and so on to the thirteenth.
func TestGiftsAreNormal(t *testing.T) {
	want := 1.0
	for power := 0; power <= 13; power += 2 {
		sum := 0.0
		for z, at := range hermiteAt {
			sum += hermiteWeighs[z] * math.Pow(at, float64(power))
		}
		if math.Abs(sum-want) > 1e-6*want {
			t.Errorf("moment %d is %v, not %v", power, sum, want)
		}
		want *= float64(power + 1)
	}
}

// What a question takes on the average is what pupils take on the average.
func TestUsualSeconds(t *testing.T) {
	for _, chance := range []float64{0.3, 0.8} {
		p, _ := sitter(chance)
		took := time.Duration(0)
		const questions = 20_000
		for range questions {
			a := p.answer(6, -1, 10, 0)
			took += a.took + a.looked
		}
		mean := took.Seconds() / questions
		if want := usualSeconds(chance); math.Abs(mean-want) > 0.01*want {
			t.Errorf("right with %v: %.2f s, held for %.2f", chance, mean, want)
		}
	}
}

// seeing is a search over three days for two things that come to the same, priced.
func seeing(prices ...float64) search {
	return search{days: 3, aDay: 1, until: 9, guess: 0.25, prices: prices, worth: make([]float64, len(prices))}
}

// Of two things whose gifts are seen all ways to ask them on three days are gone through: none that takes no longer than some seconds comes to
// more than the bound, and where a price makes its best way take just so long, that way comes to the bound.
func TestTheBoundOfATinyCourseIsMet(t *testing.T) {
	gifts := []float64{0.45, 0.8}
	type way struct{ known, took float64 }
	var each [2][]way
	for i, gift := range gifts {
		for days := range 8 {
			m := (&adding{}).oneThing([]float64{gift})
			w := way{}
			for day := range 3 {
				if at := float64(firstDay) + float64(day); days>>day&1 == 1 {
					w.took += usualSeconds(guessed(m.known(0, at), make([]pairing, 3)))
					m.learn(0, nil, at, true)
				}
			}
			w.known = m.known(0, float64(firstDay)+9)
			each[i] = append(each[i], w)
		}
	}
	prices := []float64{0.001, 0.002, 0.004, 0.007, 0.01, 0.014, 0.02}
	sum := make([]float64, len(prices))
	for _, gift := range gifts {
		for l, v := range seeing(prices...).of(&adding{}, []column{{gift, false, 1}}) {
			sum[l] += v
		}
	}
	met := 0
	for l, price := range prices {
		best := way{}
		for _, a := range each[0] {
			for _, b := range each[1] {
				both := way{a.known + b.known, a.took + b.took}
				if worth := both.known - price*both.took; worth > sum[l]+1e-9 {
					t.Errorf("at %v a second two things come to %v, more than %v", price, worth, sum[l])
				} else if worth > best.known-price*best.took {
					best = both
				}
			}
		}
		if math.Abs(best.known-(sum[l]+price*best.took)) > 1e-9 {
			t.Errorf("at %v the best of all ways knows %v in %v s, the bound is %v", price, best.known, best.took, sum[l]+price*best.took)
		}
		if best.took > 0 {
			met++
		}
	}
	if met < 4 {
		t.Errorf("at %d prices only something is asked", met)
	}
}

// Who does not see whether something is easy knows it only from answers: that is worth less than to see it, and more than to hear no answer.
func TestToSeeIsWorthMore(t *testing.T) {
	all := []column{{0.1, false, 0.5}, {1.1, false, 0.5}}
	s := seeing(0.008)
	s.guess, s.days, s.until = 0, 5, 11
	blind, seen, deaf := s.of(&adding{}, all)[0], 0.0, 0.0
	for _, c := range all {
		seen += s.of(&adding{}, []column{c})[0]
	}
	for days := range 32 { // asked on days that are fixed beforehand
		worth := 0.0
		for _, c := range all {
			m := (&adding{}).oneThing([]float64{c.gift})
			for day := range 5 {
				if at := float64(firstDay) + float64(day); days>>day&1 == 1 {
					worth -= c.weight * s.prices[0] * usualSeconds(m.known(0, at))
					m.learn(0, nil, at, true)
				}
			}
			worth += c.weight * m.known(0, float64(firstDay)+11)
		}
		deaf = max(deaf, worth)
	}
	if !(seen > blind+0.005 && blind > deaf+0.005) {
		t.Errorf("seen %v, from answers %v, from nothing %v", seen, blind, deaf)
	}
}

// What was known before gains less than what was not, and where right answers are wished for they count.
func TestColumnsAndWishes(t *testing.T) {
	s := seeing(0.004)
	knew := s.of(&halving{}, []column{{0, true, 1}})[0]
	if knew != 0 {
		t.Errorf("what is known anyway comes to %v", knew)
	}
	s.worth, s.share = []float64{0.1}, 0.5
	if got, want := s.of(&halving{}, []column{{0, true, 1}})[0], 3*(0.1*0.5-0.004*usualSeconds(1)); math.Abs(got-want) > 0.005 {
		t.Errorf("three answers that are right come to %v, not %v", got, want)
	}
	once, twice := seeing(0.0005), seeing(0.0005)
	twice.aDay = 2
	if one, two := once.of(&scaled{}, []column{{0, false, 1}})[0], twice.of(&scaled{}, []column{{0, false, 1}})[0]; two <= one {
		t.Errorf("asked up to twice a day it comes to %v, to %v once", two, one)
	}
}

// wide is a course with more things than there is time for, each of them among four.
func wide() *Course {
	var items []plan.Candidate
	for i := range 160 {
		items = append(items, plan.Candidate{Item: fmt.Sprintf("shape/%d/ukulele", i), Drill: "shape"})
	}
	return NewCourse(items, func(plan.Candidate) int { return 4 })
}

// Nobody teaches more than the bound: neither those who see into heads than that for who does, nor the others than theirs.
func TestNobodyTeachesMoreThanTheBound(t *testing.T) {
	var blind, sees, threeQuarters, minutes float64
	known := map[string]float64{}
	const students = 2
	for seed := range uint64(students) {
		make := func() *Pupil { return Kinds[0].Make(wide(), rand.New(rand.NewPCG(seed, 9))) }
		for _, teacher := range Teachers {
			rng := rand.New(rand.NewPCG(seed, 10))
			p := make()
			o := Study(p, teacher.Make(p, rng), 7, Away{}, rng)
			known[teacher.Name] += o.Known[0][0]
			minutes = o.Minutes[0]
		}
		w := Wish{Days: 7, ADay: 1, Minutes: minutes}
		bound := func(w Wish) float64 {
			b, ok := Bound(make(), w)
			if !ok {
				t.Fatal("no bound")
			}
			return b
		}
		blind += bound(w)
		w.Share = 0.75
		threeQuarters += bound(w)
		w.Share, w.Sees = 0, true
		sees += bound(w)
	}
	t.Logf("sees %.1f, does not %.1f, with three quarters right %.1f; %v", sees, blind, threeQuarters, known)
	for teacher, known := range known {
		bound := blind
		if teacher == "in order" || teacher == "gentle" || teacher == "greedy" {
			bound = sees
		}
		if known > bound {
			t.Errorf("%s teaches %.1f, more than %.1f", teacher, known, bound)
		}
	}
	if sees < blind || threeQuarters > blind {
		t.Errorf("who sees %.1f, who does not %.1f, with three quarters right %.1f", sees, blind, threeQuarters)
	}
	if _, ok := Bound(Kinds[1].Make(chords(), dice()), Wish{Days: 1, ADay: 1, Minutes: 1}); ok {
		t.Error("things that are told apart are no such things")
	}
}

// diary is a mind that writes down when it is asked.
type diary struct {
	*adding
	days map[float64]bool
}

func (d diary) oneThing(gifts []float64) independent {
	return diary{d.adding.oneThing(gifts).(*adding), d.days}
}
func (d diary) fork() independent { return diary{d.adding.fork().(*adding), d.days} }
func (d diary) learn(i int, others []pairing, day float64, right bool) {
	d.days[day-float64(firstDay)] = true
	d.adding.learn(i, others, day, right)
}

// A day's questions are asked at its beginning, and what is asked once more ten minutes later.
func TestWhenABoundAsks(t *testing.T) {
	s, d := seeing(0.001), diary{&adding{}, map[float64]bool{}}
	s.days, s.aDay = 2, 2
	s.of(d, []column{{0, false, 1}})
	for _, at := range []float64{0, 1.0 / 144, 1, 1 + 1.0/144} {
		for day := range d.days {
			if math.Abs(day-at) < 1e-6 {
				delete(d.days, day)
			}
		}
	}
	if len(d.days) > 0 {
		t.Errorf("it asks at %v", d.days)
	}
}

// How likely something was known before counts as it is: the bound is no lower than if each chance were gone through by itself, and hardly higher.
func TestWhatMayHaveBeenKnownBefore(t *testing.T) {
	p := Kinds[len(Kinds)-1].Make(wide(), dice())
	w := Wish{Days: 3, ADay: 1, Minutes: 20}
	got, ok := Bound(p, w)
	if !ok {
		t.Fatal("no bound")
	}
	prices, worth := pricesOf(0)
	exact := make([]float64, len(prices))
	for i, before := range p.likely {
		for l, v := range (thing{guess: 0.25, before: before}).most(p.of(i).(independent), w, prices, worth) {
			exact[l] += v
		}
	}
	for l := range exact {
		exact[l] += prices[l] * w.Minutes * 60 / p.slow
	}
	if want := slices.Min(exact); got < want || got > 1.01*want {
		t.Errorf("%v, gone through by itself %v", got, want)
	}
	w.Sees = true
	if sees, _ := Bound(p, w); sees <= got {
		t.Errorf("who sees what was known teaches %v, who does not %v", sees, got)
	}
	none := Kinds[0].Make(wide(), dice())
	none.slow = 1
	usual, _ := Bound(none, Wish{Days: 3, ADay: 1, Minutes: 20})
	none.slow = 2
	if slow, _ := Bound(none, Wish{Days: 3, ADay: 1, Minutes: 40}); math.Abs(slow-usual) > 1e-9 {
		t.Errorf("who takes twice as long and has twice the time: %v, not %v", slow, usual)
	}
}
