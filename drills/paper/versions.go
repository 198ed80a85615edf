package paper

import (
	"math/rand/v2"
	"slices"

	"sparetone/drills"
	"sparetone/drills/neck"
)

// Versions of a paper are for students who sit side by side. The n-th question of each asks for the same thing, with the same choices
// where these are things of the drill, about another chord, shape or sound. Of the questions that could stand there those are taken
// whose traits, what makes questions hard, are nearest to what they are in the first version, one by one and in how they are spread over the
// paper. What a question's traits do not tell of how hard it is, nobody evens out.

// version is one version of a paper.
type version struct {
	questions []*drills.Question
	asked     []asking // what each question asks for
}

// candidates is how many questions are made to take one from.
const candidates = 60

// alike returns so many versions, itself the first.
func (v version) alike(on *neck.Instrument, seed uint64, versions int) [][]*drills.Question {
	all := [][]*drills.Question{v.questions}
	if versions < 2 {
		return all
	}
	wanted := make([]traits, len(v.questions))
	taken := map[string]int{} // how often each question was asked
	for n, q := range v.questions {
		wanted[n] = traitsOf(q, on)
		taken[q.Text()]++
	}
	for k := 1; k < versions; k++ {
		rng := rand.New(rand.NewPCG(seed, 0x76657273696f6e+uint64(k)))
		places := make([][]candidate, len(v.questions))
		for n, q := range v.questions {
			a := v.asked[n].among(q, on)
			for range candidates {
				c, err := a.ask(on, rng.Uint64())
				if err != nil {
					continue
				}
				has, text := traitsOf(c, on), c.Text()
				cost := has.from(wanted[n]) + costOfChoice*float64(differing(q, c)) + costOfAgain*float64(taken[text])
				for _, other := range all {
					if other[n].Text() == text {
						cost += costOfPlace
					}
				}
				places[n] = append(places[n], candidate{c, text, has, cost})
			}
			if len(places[n]) == 0 {
				places[n] = []candidate{{q, q.Text(), wanted[n], 0}}
			}
		}
		others := cleared(places, func() []*drills.Question { return evened(places, wanted, rng) })
		for _, q := range others {
			taken[q.Text()]++
		}
		all = append(all, others)
	}
	return all
}

// differing counts the choices that one question has and the other has not; where they are called otherwise in each, by how many.
func differing(a, b *drills.Question) int {
	shared := 0
	for _, c := range a.Choices {
		if slices.ContainsFunc(b.Choices, func(o drills.Choice) bool { return o.ID == c.ID }) {
			shared++
		}
	}
	if shared == 0 || a.Form != b.Form {
		return max(len(a.Choices), len(b.Choices)) - min(len(a.Choices), len(b.Choices))
	}
	return max(len(a.Choices), len(b.Choices)) - shared
}

// Shared counts the questions that two papers have in common.
func Shared(a, b []*drills.Question) (n int) {
	for _, q := range a {
		if slices.ContainsFunc(b, func(o *drills.Question) bool { return o.Text() == q.Text() }) {
			n++
		}
	}
	return n
}
