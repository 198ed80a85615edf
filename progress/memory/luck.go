package memory

import "math"

// What luck has to do with it: of two choices every other guess is right, and one right answer shows little.

// knownBefore is how likely something is known already when it is asked for the first time (from judgement).
const knownBefore = 0.5

// showsKnown returns how likely something was known that was right the first time it was asked, if guessing is right
// with a chance: Bayes's rule. Of two choices it is 2/3, of five 5/6.
func showsKnown(guess float64) float64 {
	return knownBefore / (knownBefore + (1-knownBefore)*guess)
}

// firstOf returns what the first answer to an item leaves. What was right leaves what lies between a right answer and
// a miss, as far from the miss as it is likely that it was known: of the logarithm of the stability, and of the
// difficulty (the mixture is from judgement). Where nothing can be guessed that is First.
func (w *Weights) firstOf(g Grade, guess float64) Trace {
	t := w.First(g)
	if g == Missed || guess == 0 {
		return t
	}
	known, missed := showsKnown(guess), w.First(Missed)
	return Trace{
		Stability:  math.Pow(t.Stability, known) * math.Pow(missed.Stability, 1-known),
		Difficulty: known*t.Difficulty + (1-known)*missed.Difficulty,
	}
}

// unlikelyLuck is the chance of being all luck below which a run of right answers is no longer taken for it (common
// practice, no source).
const unlikelyLuck = 0.05
