package memory

import (
	"math"

	"sparetone/progress"

	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/optimize"
)

const (
	fitFrom   = 300  // answers before the weights are fitted at all
	fitAgain  = 1.5  // times as many answers before they are fitted anew
	fitAtMost = 4000 // answers that they are fitted to, the latest
	heldOut   = 0.2  // share of the answers, the latest, that the fit never sees and is judged by
	stray     = 0.7  // how far off, each way, the weights are expected to lie
)

func FitDue(answers, tried int) bool {
	return answers >= fitFrom && float64(answers) >= fitAgain*float64(tried)
}

// sample is an answer as the memory model sees it.
type sample struct {
	item  int
	day   progress.Day
	grade Grade
	guess float64 // chance of being right by guessing
	right bool
}

// Samples are answers in the order they were given, their items numbered.
type Samples struct {
	All   []sample
	items map[string]int
}

// Add grades an answer that is about to be added to what is derived.
func (s *Samples) Add(d *Derived, a progress.Answer, day progress.Day) {
	if a.Voice != "" {
		return
	}
	if s.items == nil {
		s.items = map[string]int{}
	}
	n, seen := s.items[a.Item]
	if !seen {
		n = len(s.items)
		s.items[a.Item] = n
	}
	s.All = append(s.All, sample{n, day, d.gradeNext(a), a.Guess(), a.Result == progress.Right})
}

// Fit returns the weights that suit the answers best, if they predict the latest ones better than the
// weights before, and else the weights before.
//
// It looks for the likeliest weights, as they lie some ways off those to begin with, and expected to be near them: few answers
// move them little. Answers to what is heard are not looked at: they have a model of their own.
func (s *Samples) Fit(before Weights) (w Weights, better bool) {
	latest, cut := s.latest()
	traces := make([]Memory, len(s.items))
	cost := func(x []float64) float64 {
		w := weightsAt(x)
		return s.surprise(&w, traces, latest[:cut], 0) + strangeness(x)
	}
	w = weightsAt(descend(cost, ways))
	if s.surprise(&w, traces, latest, cut) < s.surprise(&before, traces, latest, cut) {
		return w, true
	}
	return before, false
}

// latest returns the answers that count, and how many of them the weights are fitted to; the others are the judge.
func (s *Samples) latest() (all []sample, fitted int) {
	all = s.All[max(0, len(s.All)-fitAtMost):]
	return all, len(all) - int(heldOut*float64(len(all)))
}

// strangeness is how unlikely weights are before any answer, in nats, more than those to begin with.
func strangeness(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v * v / (2 * stray * stray)
	}
	return sum
}

// ways are those in which a student's weights may differ from those to begin with: how long a first answer lasts, how much longer what
// is recalled, what is left after a miss, how fast all fades, and what further answers of a day add. All 21 weights, each by itself,
// foretold no better and took four times as long.
const ways = 5

// weightsAt returns the weights that lie so far from those to begin with, each way as a logarithm, within bounds.
func weightsAt(x []float64) Weights {
	w := StartWeights
	for i := range 4 {
		w[i] *= math.Exp(x[0])
	}
	w[8] += x[1]
	w[11] *= math.Exp(x[2])
	w[20] *= math.Exp(x[3])
	w[17] *= math.Exp(x[4])
	for i := range w {
		w[i] = clamp(w[i], weightBounds[i].least, weightBounds[i].most)
	}
	return w
}

// surprise sums how unlikely the weights hold the answers to be, in nats, from a position on. Answers
// of a day on which the item was asked before are not counted: they say little of memory.
func (s *Samples) surprise(w *Weights, traces []Memory, answers []sample, from int) float64 {
	clear(traces)
	curve := w.forgetting()
	sum := 0.0
	for i, a := range answers {
		m := &traces[a.item]
		if m.Asked == 0 {
			m.Trace = w.firstOf(a.grade, a.guess)
		} else {
			days := float64(a.day.Since(m.Day))
			chance := curve.chance(m.Trace, days)
			if i >= from && days > 0 {
				p := clamp(rightWith(chance, a.guess), 0.001, 0.999)
				if !a.right {
					p = 1 - p
				}
				sum -= math.Log(p)
			}
			m.Trace = w.learn(m.Trace, days, chance, a.grade, a.guess)
		}
		m.Day = a.day
		m.Asked++
	}
	return sum
}

// descend looks for the lowest cost near the origin by the limited-memory BFGS method. Where the search
// ends early, as it may where a bound makes a corner, the best place it came by counts.
func descend(cost func([]float64) float64, n int) []float64 {
	problem := optimize.Problem{
		Func: cost,
		Grad: func(g, x []float64) { fd.Gradient(g, cost, x, &fd.Settings{Formula: fd.Forward, Step: 1e-5}) },
	}
	start := make([]float64, n)
	best, err := optimize.Minimize(problem, start, &optimize.Settings{MajorIterations: 40}, &optimize.LBFGS{})
	if best == nil || err != nil && best.X == nil {
		return start
	}
	return best.X
}
