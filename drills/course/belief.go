package course

import "math"

// belief is how likely each pair of levels in a course is somebody's: belief[ear][eye], where a level is the
// number of steps that are known, by ear or by eye, and all of it adds up to 1. Ear and eye are held apart
// because players are: many know forty shapes and not one of them by its sound. They are not independent
// either, so an answer for the eye says a little about the ear.
type belief [][]float64

// The belief before anything was asked; all from judgement, no source. Shares are of the whole course.
const (
	usualLevel = 0.8 // the chance of a level falls by a factor e with every so large a share of the course
	usualApart = 0.3 // standard deviation of what lies between ear and eye
)

// What an answer says; from judgement, no source. The tests ask students who are otherwise.
const (
	slipRate = 0.15 // chance that somebody who knows does not answer right
	ragged   = 2    // steps over which what is known goes over into what is not, as a logistic scale
)

// newBelief is the belief before anything was asked, over so many steps by ear and by eye.
func newBelief(ears, eyes int) belief {
	b := make(belief, ears+1)
	for ear := range b {
		b[ear] = make([]float64, eyes+1)
		for eye := range b[ear] {
			x, y := float64(ear)/float64(max(1, ears)), float64(eye)/float64(max(1, eyes))
			apart := (x - y) / usualApart
			b[ear][eye] = math.Exp(-(x+y)/(2*usualLevel) - apart*apart/2)
		}
	}
	b.learn(true, func(int) float64 { return 1 })
	return b
}

// learn weighs the belief by how likely, from each level, is what was seen; byEar says which level that is.
func (b belief) learn(byEar bool, likely func(level int) float64) {
	sum := 0.0
	for ear := range b {
		for eye := range b[ear] {
			level := eye
			if byEar {
				level = ear
			}
			b[ear][eye] *= likely(level)
			sum += b[ear][eye]
		}
	}
	for ear := range b {
		for eye := range b[ear] {
			b[ear][eye] /= sum
		}
	}
}

// levels is how likely each level by ear is, or by eye.
func (b belief) levels(byEar bool) []float64 {
	if !byEar {
		out := make([]float64, len(b[0]))
		for ear := range b {
			for eye, p := range b[ear] {
				out[eye] += p
			}
		}
		return out
	}
	out := make([]float64, len(b))
	for ear := range b {
		for _, p := range b[ear] {
			out[ear] += p
		}
	}
	return out
}

// knows is the chance that somebody at a level knows a step, counted from 0: a logistic curve, one half
// between the last step before the level and the one at it.
func knows(level, step int) float64 {
	return 1 / (1 + math.Exp((float64(step-level)+0.5)/ragged))
}

// rightAt is the chance that somebody at a level answers right to a question of a step that has so many
// choices: by knowing and not slipping, or by guessing.
func rightAt(level, step, choices int) float64 {
	k := knows(level, step)
	return k*(1-slipRate) + (1-k)/float64(choices)
}

// unknownAt is how likely "I don't know" is from there. It counts as an answer that was not right and
// that no luck could have made so. (It need not add up with rightAt: only ratios between levels count.)
func unknownAt(level, step int) float64 {
	k := knows(level, step)
	return k*slipRate + (1 - k)
}

// tells is how much a question tells of the level, in bits: the mutual information of the level and of
// whether the answer is right.
func tells(levels []float64, step, choices int) float64 {
	right, left := 0.0, 0.0
	for level, p := range levels {
		r := rightAt(level, step, choices)
		right += p * r
		left += p * doubt(r)
	}
	return doubt(right) - left
}

// doubt is the entropy, in bits, of something that happens with this chance.
func doubt(p float64) float64 {
	if p <= 0 || p >= 1 {
		return 0
	}
	return -p*math.Log2(p) - (1-p)*math.Log2(1-p)
}

// tooLate is how much worse it is to begin a step too late than a step too early: what is known already
// is soon answered and stays away, and what was passed over is missed by all that rests on it.
const tooLate = 1.5

// settled is the level to begin from, and how likely the true one is within so many steps of it. The
// level is where beginning earlier and beginning later would cost the same, the quantile 1/(1+tooLate).
func settled(levels []float64, within int) (level int, chance float64) {
	below := 0.0
	for level = range levels {
		if below += levels[level]; below >= 1.0/(1+tooLate) {
			break
		}
	}
	for p := max(0, level-within); p <= min(len(levels)-1, level+within); p++ {
		chance += levels[p]
	}
	return level, chance
}
