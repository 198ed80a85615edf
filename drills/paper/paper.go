// Package paper makes the questions of a paper, in one version or in several that are as hard as each other, and the recording of its
// sounds. What is written of them is for tui/draw/papers.
package paper

import (
	"math"
	"math/rand/v2"
	"slices"

	"sparetone/drills"
	"sparetone/drills/course"
	"sparetone/drills/neck"
)

// OfDrill makes so many versions of a paper of one drill, 1 or more, as hard as each other, of count questions each. What the drill asks
// for comes in turn, in an order picked anew each time round, so that nothing comes twice before all has come once. The same seed makes
// the same paper, and the first version does not depend on how many there are. The error says why there is none: the drill has no question
// for the instrument.
func OfDrill(d drills.Drill, on *neck.Instrument, count int, seed uint64, versions int) ([][]*drills.Question, error) {
	var asks []asking
	for _, t := range d.Targets(on) {
		asks = append(asks, asking{drill: d, target: t.ID})
	}
	if len(asks) == 0 {
		return nil, nothingOfDrill(d.About().ID, on)
	}
	return papers(asks, on, count, seed, versions, func(rng *rand.Rand) []int { return rng.Perm(len(asks)) }, func(int) []int { return nil })
}

// OfLesson makes so many versions of a paper of a lesson, as OfDrill does: its steps come in their order, and from the first again until
// there are enough. Where there are fewer questions than the lesson has things to ask, each step has its share of them. What a step asks for
// comes in an order picked anew each time, which else would tell the answers. Choices are among what the lesson asks of the same drill.
func OfLesson(c course.Course, on *neck.Instrument, count int, seed uint64, versions int) ([][]*drills.Question, error) {
	asks, steps := askings(c, on)
	if len(asks) == 0 {
		return nil, nothingOfLesson(on)
	}
	share := shares(steps, count)
	return papers(asks, on, count, seed, versions, func(rng *rand.Rand) []int {
		var order []int
		first := 0
		for step, n := range steps {
			for _, i := range rng.Perm(n)[:share[step]] {
				order = append(order, first+i)
			}
			first += n
		}
		return order
	}, func(i int) (same []int) {
		first := 0
		for _, n := range steps {
			for k := first; k < first+n && first <= i && i < first+n; k++ {
				same = append(same, k)
			}
			first += n
		}
		return same
	})
}

// shares divides the questions of a paper among steps, by how many things each asks: all of them where there are questions enough. Else
// each step has one, from the first on, and what is left goes where a step has the most things for each question (D'Hondt's method).
func shares(things []int, count int) []int {
	share := make([]int, len(things))
	for range count {
		most, best := 0.0, -1
		for step, n := range things {
			weight := float64(n) / float64(share[step]+1)
			if share[step] == 0 {
				weight = math.Inf(1)
			}
			if share[step] < n && weight > most {
				most, best = weight, step
			}
		}
		if best < 0 {
			break
		}
		share[best]++
	}
	return share
}

// papers asks for one thing after the other, round after round; next is the order of a round, and instead lists what a thing's step asks,
// of which something may take its place that the round does not ask.
func papers(asks []asking, on *neck.Instrument, count int, seed uint64, versions int, next func(*rand.Rand) []int, instead func(int) []int) ([][]*drills.Question, error) {
	var (
		first  version
		rng    = rand.New(rand.NewPCG(seed, 0x7061706572))
		round  []int
		whole  []int // the round, with what is asked of it already
		failed error
	)
	fits := func(a asking) (q *drills.Question, alone bool, err error) {
		for range 1 + otherTries {
			if q, err = a.ask(on, rng.Uint64()); err != nil {
				break
			}
			if alone = !givesAnyAway(q, first.questions) && !asksAgain(q, first.questions); alone {
				break
			}
		}
		return q, alone, err
	}
	for empty := 0; len(first.questions) < count && empty < len(asks); {
		if len(round) == 0 {
			round = next(rng)
			whole = slices.Clone(round)
		}
		i := round[0]
		a := asks[i]
		round = round[1:]
		q, alone, err := fits(a)
		for _, k := range instead(i) {
			if alone || err != nil {
				break
			}
			if slices.Contains(whole, k) {
				continue
			}
			if other, ok, err := fits(asks[k]); err == nil && ok {
				q, a, alone = other, asks[k], true
				whole[slices.Index(whole, i)] = k
			}
		}
		if err != nil {
			empty, failed = empty+1, err
			continue
		}
		empty = 0
		first.questions, first.asked = append(first.questions, q), append(first.asked, a)
	}
	if len(first.questions) < count {
		return nil, failed
	}
	return first.alike(on, seed, versions), nil
}
