package pupils

import (
	"fmt"
	"math"
	"math/rand/v2"
	"time"

	"sparetone/progress"
	"sparetone/progress/plan"
)

// Measured are the days of practice after which is measured.
var Measured = [...]int{7, 30, 60, 120}

// Later are how many days after the practice it is measured.
var Later = [...]float64{7, 30}

// Firmly is the chance from which something is known firmly.
const Firmly = 0.8

// Outcome is what practice came to.
type Outcome struct {
	Known    [len(Measured)][len(Later)]float64 // items known, guessing taken out, more than without any practice
	Firm     [len(Measured)][len(Later)]float64 // items known firmly, more than without any practice
	Minutes  [len(Measured)]float64
	Sessions []Session
	Foretold [2][bins]bin // by eye and by ear: what was foretold from the hundredth answer on, and what happened
	Wasted   int          // of the first hundred questions, such as are right nineteen times in twenty
	Met      int
}

// Session is how a session went.
type Session struct {
	Day         int // of practice, from 0
	Right, Of   int
	Due         int // what still waited at its end, of a planner
	Ended, Long time.Duration
}

const bins = 10

type bin struct{ foretold, right, n float64 }

// firstDay is the practice day on which every study begins.
const firstDay progress.Day = 20_000

// Away are days without practice, from one day to before another.
type Away struct{ From, Until int }

// Study lets a pupil practise with a teacher for so many days, ten minutes each unless life has it otherwise.
func Study(p *Pupil, t Teacher, days int, away Away, life *rand.Rand) Outcome {
	var o Outcome
	c := p.Course
	answers, minutes := 0, 0.0
	begun := make([][len(Measured)][len(Later)]float64, len(c.Items))
	for i := range c.Items {
		for m, d := range Measured {
			for l, later := range Later {
				begun[i][m][l] = p.Known(i, float64(firstDay)+float64(d-1)+later)
			}
		}
	}
	holiday := 20 + life.IntN(60)
	misses := 0
	for d := range days {
		length := 10 * time.Minute
		out := d >= away.From && d < away.Until
		if p.life {
			length = time.Duration((3 + 12*life.Float64()) * float64(time.Minute))
			out = out || life.IntN(5) == 0 || d >= holiday && d < holiday+10 || misses >= 3 && !p.stays
			if misses >= 3 && life.IntN(4) == 0 {
				misses = 0
			}
		}
		if !out {
			day := firstDay + progress.Day(d)
			began := day.Begins(time.UTC).Add(15 * time.Hour)
			at := began
			s := Session{Day: d}
			t.session(day, at, length)
			for {
				item, against, ok := t.next(at)
				if !ok {
					break
				}
				into := at.Sub(began)
				foretold, known := 0.0, false
				if f, can := t.(foretells); can {
					foretold, known = f.foretold(item, day)
				}
				a := p.answer(item, against, float64(day)+into.Hours()/24, into.Minutes())
				at = at.Add(a.took)
				answer := progress.Answer{Session: fmt.Sprint(d), Item: c.Items[item].Item, Drill: c.Items[item].Drill, At: at, Result: a.result, Choices: a.among, Took: a.took}
				if c.Items[item].Ear {
					answer.Voice = "nylon"
				}
				if a.takenFor >= 0 {
					answer.TakenFor = c.Items[a.takenFor].Item
				}
				t.answered(item, answer)
				at = at.Add(a.looked)
				answers++
				s.Of++
				if answers <= 100 && a.sure >= 0.95 {
					o.Wasted++
				}
				right := 0.0
				if a.result == progress.Right {
					s.Right++
					right = 1
				}
				if known && answers > 100 {
					b := &o.Foretold[ear(c.Items[item])][min(bins-1, int(foretold*bins))]
					b.foretold, b.right, b.n = b.foretold+foretold, b.right+right, b.n+1
				}
				if p.life && !p.stays && s.Of >= 12 && s.Right*5 < s.Of*2 { // gives up
					break
				}
			}
			if pl, is := t.(*Planned); is {
				s.Due = pl.Today(at).Due
			}
			minutes += at.Sub(began).Minutes()
			misses++
			if s.Right*2 >= s.Of {
				misses = 0
			}
			o.Sessions = append(o.Sessions, s)
		}
		for m, on := range Measured {
			if d != on-1 {
				continue
			}
			o.Minutes[m] = minutes
			for l, later := range Later {
				for i := range c.Items {
					k := p.Known(i, float64(firstDay)+float64(d)+later)
					o.Known[m][l] += k - begun[i][m][l]
					if k >= Firmly {
						o.Firm[m][l]++
					}
					if begun[i][m][l] >= Firmly {
						o.Firm[m][l]--
					}
				}
			}
		}
	}
	for _, met := range p.met {
		if met {
			o.Met++
		}
	}
	return o
}

func ear(c plan.Candidate) int {
	if c.Ear {
		return 1
	}
	return 0
}

// Off is how far what was foretold lay from what happened, on the average over answers: by tenths of what was foretold.
func Off(all []Outcome, ear int) float64 {
	off, n := 0.0, 0.0
	var sum [bins]bin
	for _, o := range all {
		for k, b := range o.Foretold[ear] {
			sum[k].foretold += b.foretold
			sum[k].right += b.right
			sum[k].n += b.n
		}
	}
	for _, b := range sum {
		if b.n > 0 {
			off += math.Abs(b.foretold - b.right)
			n += b.n
		}
	}
	return off / max(1, n)
}

// Teachers are the planner and those it is judged by.
var Teachers = []TeacherKind{
	{"planner", func(p *Pupil, _ *rand.Rand) Teacher { return NewPlanned(p.Course) }},
	{"ladder", func(p *Pupil, rng *rand.Rand) Teacher { return newLadder(p.Course, rng) }},
	{"due-only", func(p *Pupil, rng *rand.Rand) Teacher { return newDueOnly(p.Course, rng) }},
	{"random", func(p *Pupil, rng *rand.Rand) Teacher { return newAnything(p.Course, rng) }},
	{"in order", func(p *Pupil, rng *rand.Rand) Teacher { return newInOrder(p, rng) }},
	{"gentle", func(p *Pupil, rng *rand.Rand) Teacher { return newGentle(p, rng) }},
	{"greedy", func(p *Pupil, rng *rand.Rand) Teacher { return newGreedy(p, rng) }},
}
