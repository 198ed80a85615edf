package progress

import (
	"database/sql"
	"encoding/json"
	"math"

	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/optimize"
)

const (
	fitFrom   = 300  // answers before the weights are fitted at all
	fitAgain  = 1.5  // times as many answers before they are fitted anew
	fitAtMost = 4000 // answers that they are fitted to, the latest
	heldOut   = 0.2  // share of the answers, the latest, that the fit never sees and is judged by
	stray     = 0.7  // how far the logarithm of a weight is expected to lie from the published one
)

// weightBounds keep every weight where the equations make sense. Source: npm ts-fsrs 5.4.2 (MIT),
// CLAMP_PARAMETERS.
var weightBounds = [len(Weights{})]struct{ least, most float64 }{
	{0.001, 100}, {0.001, 100}, {0.001, 100}, {0.001, 100}, {1, 10}, {0.001, 4}, {0.001, 4},
	{0.001, 0.75}, {0, 4.5}, {0, 0.8}, {0.001, 3.5}, {0.001, 5}, {0.001, 0.25}, {0.001, 0.9},
	{0, 4}, {0, 1}, {1, 6}, {0, 2}, {0, 2}, {0.01, 0.8}, {0.1, 0.8},
}

// Fit fits the memory model to the student where there are enough answers, and many more than when it
// was last tried. Weights of the student's own are kept only if they predict the latest answers,
// which the fit did not see, better than the weights before. It takes a second or two, some ten times
// in a student's life; End sees to it.
func (f *File) Fit() error {
	var answers, tried int
	err := f.db.QueryRow("SELECT (SELECT coalesce(max(n), 0) FROM answers), coalesce((SELECT answers FROM fit), 0)").Scan(&answers, &tried)
	if err != nil || !fitDue(answers, tried) {
		return plain(err)
	}
	var before Weights
	var s samples
	err = f.read(func(tx *sql.Tx) (err error) {
		s, before, err = samplesIn(tx)
		return err
	})
	if err != nil {
		return err
	}
	w, better := s.fit(before)
	return f.change(func(tx *sql.Tx) error {
		// Another program, or the practice before, may have fitted them in the meantime; what is derived follows
		// from its weights.
		since := newDerived(DefaultWeights)
		if err := since.loadWeights(tx); err != nil || since.weights != before {
			return err
		}
		text := ""
		if w != DefaultWeights {
			bytes, err := json.Marshal(w)
			if err != nil {
				return err
			}
			text = string(bytes)
		}
		if _, err := tx.Exec("DELETE FROM fit"); err != nil {
			return err
		}
		if _, err := tx.Exec("INSERT INTO fit VALUES (?, ?)", answers, text); err != nil || !better {
			return err
		}
		return rebuild(tx)
	})
}

// sensible reports whether weights are within their bounds.
func (w Weights) sensible() bool {
	for i, b := range weightBounds {
		if !(w[i] >= b.least && w[i] <= b.most) {
			return false
		}
	}
	return true
}

func fitDue(answers, tried int) bool {
	return answers >= fitFrom && float64(answers) >= fitAgain*float64(tried)
}

// sample is an answer as the memory model sees it.
type sample struct {
	item  int
	day   Day
	grade Grade
	guess float64 // chance of being right by guessing
	held  bool
}

// samples are answers in the order they were given, their items numbered.
type samples struct {
	all   []sample
	items map[string]int
}

// samplesIn reads the answers of a file, but for those whose time is doubted, and the weights there are.
func samplesIn(from reader) (s samples, w Weights, err error) {
	d := newDerived(DefaultWeights)
	if err := d.loadWeights(from); err != nil {
		return s, w, err
	}
	doubted, err := doubtsIn(from)
	if err != nil {
		return s, w, err
	}
	return s, d.weights, answersIn(from, func(k kept) error {
		if doubted.of(k.n, k.At) {
			d.doubt(k.n, k.Answer)
			return nil
		}
		s.add(d, k.Answer, k.Day)
		d.add(k.Answer, k.Day)
		return nil
	})
}

// add grades an answer that is about to be added to what is derived.
func (s *samples) add(d *derived, a Answer, day Day) {
	if s.items == nil {
		s.items = map[string]int{}
	}
	n, seen := s.items[a.Item]
	if !seen {
		n = len(s.items)
		s.items[a.Item] = n
	}
	s.all = append(s.all, sample{n, day, d.gradeNext(a), a.guess(), a.Result == Right})
}

// fit returns the weights that suit the answers best, if they predict the latest ones better than the
// weights before, and else the weights before.
//
// It looks for the likeliest weights, each given as the logarithm of its ratio to the published one
// and expected to be near that: few answers move it little.
func (s *samples) fit(before Weights) (w Weights, better bool) {
	latest, cut := s.latest()
	traces := make([]Memory, len(s.items))
	cost := func(x []float64) float64 {
		w := weightsAt(x)
		return s.surprise(&w, traces, latest[:cut], 0) + strangeness(x)
	}
	w = weightsAt(descend(cost, len(before)))
	if s.surprise(&w, traces, latest, cut) < s.surprise(&before, traces, latest, cut) {
		return w, true
	}
	return before, false
}

// latest returns the answers that count, and how many of them the weights are fitted to; the others are the judge.
func (s *samples) latest() (all []sample, fitted int) {
	all = s.all[max(0, len(s.all)-fitAtMost):]
	return all, len(all) - int(heldOut*float64(len(all)))
}

// strangeness is how unlikely weights are before any answer, in nats, more than the published ones.
func strangeness(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v * v / (2 * stray * stray)
	}
	return sum
}

// weightsAt returns the published weights, each times e to the power of its place, within bounds.
func weightsAt(x []float64) Weights {
	w := DefaultWeights
	for i := range w {
		w[i] = clamp(w[i]*math.Exp(x[i]), weightBounds[i].least, weightBounds[i].most)
	}
	return w
}

// surprise sums how unlikely the weights hold the answers to be, in nats, from a position on. Answers
// of a day on which the item was asked before are not counted: they say little of memory.
func (s *samples) surprise(w *Weights, traces []Memory, answers []sample, from int) float64 {
	clear(traces)
	curve := w.forgetting()
	sum := 0.0
	for i, a := range answers {
		m := &traces[a.item]
		if m.Asked == 0 {
			m.Trace = w.firstOf(a.grade, a.guess)
		} else {
			days := float64(a.day.since(m.Day))
			chance := curve.chance(m.Trace, days)
			if i >= from && days > 0 {
				p := clamp(chance, 0.001, 0.999)
				if !a.held {
					p = 1 - p
				}
				sum -= math.Log(p)
			}
			m.Trace = w.next(m.Trace, days, chance, a.grade)
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
