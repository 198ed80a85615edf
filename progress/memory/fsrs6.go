package memory

import "math"

// Weights are the 21 parameters of FSRS-6.
type Weights [21]float64

// DefaultWeights are the published ones.
//
// Source: open-spaced-repetition, "The Algorithm", FSRS-6,
// https://github.com/open-spaced-repetition/awesome-fsrs/wiki/The-Algorithm; the same numbers are in
// npm ts-fsrs 5.4.2 (MIT), default_w.
var DefaultWeights = Weights{
	0.212, 1.2931, 2.3065, 8.2956, 6.4133, 0.8334, 3.0194, 0.001, 1.8722, 0.1666, 0.796,
	1.4835, 0.0614, 0.2629, 1.6483, 0.6014, 1.8729, 0.5425, 0.0912, 0.0658, 0.1542,
}

// StartWeights are those that a student begins with. The published ones come from vocabulary that people chose to learn by heart, and
// foretell here 11 to 16 points too much until they are fitted: so a first answer lasts a third as long, what is recalled grows
// by less than half as much, and all fades faster (from judgement: about half way to what the fit finds for simulated students).
var StartWeights = func() Weights {
	w := DefaultWeights
	for i := range 4 {
		w[i] *= 0.3
	}
	w[8] -= 0.8
	w[20] = 0.45
	return w
}()

// Trace is what FSRS-6 says is left in memory of one item.
type Trace struct {
	Stability  float64 // days until the chance that it is known has fallen to 9 in 10
	Difficulty float64 // 1 to 10
}

// Bounds of stability in days and of difficulty, as ts-fsrs has them.
const (
	leastStability, mostStability   = 0.001, 36500
	leastDifficulty, mostDifficulty = 1, 10
)

// How much longer what is recalled lasts each time is a weight (w8, a logarithm). Up to growsLittle that counts as little, from growsMuch on as
// much. The first is just above what a student begins with, so that nobody counts as growing before the fit has found it (chosen on students
// for choosing).
const (
	growsLittle = 1.08
	growsMuch   = 1.12
)

// Growing returns how far, from 0 to 1, a student's answers have shown that what is recalled lasts many times as long as before, so that an
// answer in time is worth most. Who forgets by half-lives is found to do so, others are not.
func (w *Weights) Growing() float64 {
	return clamp((w[8]-growsLittle)/(growsMuch-growsLittle), 0, 1)
}

// forgetting is the curve along which the chance that it is known falls, a power of time that passes
// 9 in 10 when the time is the stability.
type forgetting struct{ decay, factor float64 }

func (w *Weights) forgetting() forgetting {
	decay := -w[20]
	return forgetting{decay, math.Pow(0.9, 1/decay) - 1}
}

func (f forgetting) chance(t Trace, days float64) float64 {
	return math.Pow(1+f.factor*days/t.Stability, f.decay)
}

// Retrievability returns the chance that it is known a number of days after the last answer.
func (w *Weights) Retrievability(t Trace, days float64) float64 {
	return w.forgetting().chance(t, days)
}

// Interval returns after how many days the chance that it is known will have fallen to aim.
func (w *Weights) Interval(t Trace, aim float64) float64 {
	f := w.forgetting()
	return t.Stability / f.factor * (math.Pow(aim, 1/f.decay) - 1)
}

// First returns what the first answer to an item leaves.
func (w *Weights) First(g Grade) Trace {
	return Trace{
		Stability:  max(w[g-1], 0.1),
		Difficulty: clamp(w.firstDifficulty(g), leastDifficulty, mostDifficulty),
	}
}

func (w *Weights) firstDifficulty(g Grade) float64 {
	return w[4] - math.Exp(w[5]*float64(g-1)) + 1
}

// Next returns what a further answer leaves, so many days after the one before it.
func (w *Weights) Next(t Trace, days float64, g Grade) Trace {
	return w.next(t, days, w.Retrievability(t, days), g)
}

// next is Next where the chance that it is known is known. Answers of one day have their own formula.
func (w *Weights) next(t Trace, days, chance float64, g Grade) Trace {
	next := Trace{Difficulty: w.nextDifficulty(t.Difficulty, g)}
	switch {
	case days == 0:
		next.Stability = w.sameDay(t.Stability, g)
	case g == Missed:
		next.Stability = w.afterMiss(t, chance)
	default:
		next.Stability = w.afterRecall(t, chance, g)
	}
	return next
}

// nextDifficulty moves by less the nearer the difficulty is to its upper bound, and a little towards
// that of an item found Fluent at first sight.
func (w *Weights) nextDifficulty(d float64, g Grade) float64 {
	moved := d - w[6]*float64(g-3)*(10-d)/9
	return clamp(w[7]*w.firstDifficulty(Fluent)+(1-w[7])*moved, leastDifficulty, mostDifficulty)
}

func (w *Weights) sameDay(s float64, g Grade) float64 {
	grows := math.Exp(w[17]*(float64(g-3)+w[18])) * math.Pow(s, -w[19])
	if g > Missed {
		grows = max(grows, 1)
	}
	return clamp(s*grows, leastStability, mostStability)
}

func (w *Weights) afterRecall(t Trace, r float64, g Grade) float64 {
	grows := math.Exp(w[8]) * (11 - t.Difficulty) * math.Pow(t.Stability, -w[9]) * (math.Exp(w[10]*(1-r)) - 1)
	switch g {
	case Shaky:
		grows *= w[15]
	case Fluent:
		grows *= w[16]
	}
	return clamp(t.Stability*(1+grows), leastStability, mostStability)
}

// afterMiss never leaves more than the same miss within a day would have.
func (w *Weights) afterMiss(t Trace, r float64) float64 {
	left := w[11] * math.Pow(t.Difficulty, -w[12]) * (math.Pow(t.Stability+1, w[13]) - 1) * math.Exp(w[14]*(1-r))
	return clamp(t.Stability/math.Exp(w[17]*w[18]), leastStability, clamp(left, leastStability, mostStability))
}

func clamp(x, low, high float64) float64 { return min(max(x, low), high) }
