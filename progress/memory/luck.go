package memory

import "math"

// What luck has to do with it: of two choices every other guess is right, and one right answer shows little.

// knownBefore is the prior by which a first right answer is judged, luck or knowledge (from judgement). It favours neither, so that the
// answer decides; knownAtFirst is what is expected before there is any.
const knownBefore = 0.5

// showsKnown returns how likely something was known that was right the first time it was asked, if guessing is right
// with a chance: Bayes's rule. Of two choices it is 2/3, of five 5/6.
func showsKnown(guess float64) float64 {
	return knownBefore / (knownBefore + (1-knownBefore)*guess)
}

// firstOf returns what the first answer to an item leaves. What was right leaves what lies between a right answer and
// a miss, as far from the miss as it is likely that it was known. Where nothing can be guessed that is First.
func (w *Weights) firstOf(g Grade, guess float64) Trace {
	t := w.First(g)
	if g == Missed || guess == 0 {
		return t
	}
	return between(w.First(Missed), t, showsKnown(guess))
}

// between returns what lies so far, 0 to 1, from one trace to another: of the logarithm of the stability, and of the
// difficulty (the mixture is from judgement).
func between(a, b Trace, share float64) Trace {
	return Trace{
		Stability:  math.Pow(a.Stability, 1-share) * math.Pow(b.Stability, share),
		Difficulty: (1-share)*a.Difficulty + share*b.Difficulty,
	}
}

// slips is how often somebody who knows does not answer right (from judgement: with none, every slip was taken for forgetting, and
// all came back too soon).
const slips = 0.08

// rightWith returns the chance of being right where something is known with a chance: by knowing and not slipping, or by guessing.
func rightWith(known, guess float64) float64 { return known*(1-slips) + (1-known)*guess }

// shows returns how likely something was known that was right or not, where it was known with a chance before: Bayes's rule.
func shows(known, guess float64, right bool) float64 {
	hit, luck := known*(1-slips), (1-known)*guess
	if !right {
		hit, luck = known*slips, (1-known)*(1-guess)
	}
	if hit+luck == 0 {
		return known
	}
	return hit / (hit + luck)
}

// learn returns what a further answer leaves, so many days after the one before it, when it was known with a chance. A right answer
// may be a guess and a miss a slip: what is left lies between what either would leave.
func (w *Weights) learn(t Trace, days, chance float64, g Grade, guess float64) Trace {
	if g == Shaky {
		return w.next(t, days, chance, g)
	}
	knew := g
	if g == Missed {
		knew = Firm
	}
	return between(w.next(t, days, chance, Missed), w.next(t, days, chance, knew), shows(chance, guess, g != Missed))
}

// unlikelyLuck is the chance of being all luck below which a run of right answers is no longer taken for it (common
// practice, no source).
const unlikelyLuck = 0.05
