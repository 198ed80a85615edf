package fair

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"slices"

	"sparetone/drills"
)

// enoughChoices is how many answers a question offers where fewer are worth asking for. One of them is asked for, picked
// from all: with more of them what is worth asking comes less often, and with fewer a guess is right more often.
const enoughChoices = 4

// Pick picks the targets that stand among a question's choices: the one asked for, the one it is set
// against, and others in play picked at random, so that neither its place nor its company tells which
// is right. No two of them clash, that is, could both be right names of one sound. They come in the
// order of all.
func Pick(all []drills.Target, r drills.Request, clash func(a, b string) bool) ([]drills.Target, error) {
	if out := r.Settled(all); out != nil {
		return out, nil
	}
	if !slices.ContainsFunc(all, func(t drills.Target) bool { return t.ID == r.Target }) {
		return nil, fmt.Errorf("%q is nothing this drill asks", r.Target)
	}
	picked := []string{r.Target}
	add := func(id string) {
		fits := len(picked) < drills.MostChoices && !slices.Contains(picked, id) &&
			!slices.ContainsFunc(picked, func(p string) bool { return clash(p, id) })
		if fits {
			picked = append(picked, id)
		}
	}
	if drills.IsTarget(all, r.Against) { // what lies near may ask for more strings than there are
		add(r.Against)
	}
	var inPlay, rest []string
	for _, t := range all {
		if len(r.InPlay) == 0 || slices.Contains(r.InPlay, t.ID) {
			inPlay = append(inPlay, t.ID)
		} else {
			rest = append(rest, t.ID)
		}
	}
	order := inTurn(inPlay, clash, r.Rand)
	most := drills.MostChoices
	if r.Wanted != nil {
		most = enoughChoices
		for _, id := range order {
			if slices.Contains(r.Wanted, id) {
				add(id)
			}
		}
	}
	for _, id := range order {
		if len(picked) < most {
			add(id)
		}
	}
	// With one thing in play there would be nothing to tell apart: take another. What is practised alone, which everybody
	// knows who practises it, stands beside what lies near it; elsewhere that would tell which is right.
	if near := all[drills.IndexOf(all, r.Target)].Near; len(r.InPlay) == 1 {
		for _, i := range r.Rand.Perm(len(near)) {
			if len(picked) < 2 && drills.IsTarget(all, near[i]) {
				add(near[i])
			}
		}
	}
	for _, i := range r.Rand.Perm(len(rest)) {
		if len(picked) < 2 {
			add(rest[i])
		}
	}
	if len(picked) < 2 {
		return nil, fmt.Errorf("%q has nothing to be told from", r.Target)
	}
	var out []drills.Target
	for _, t := range all {
		if slices.Contains(picked, t.ID) {
			out = append(out, t)
		}
	}
	return out, nil
}

// clashWeight is how much likelier a target comes early for each other that it clashes with. With 0 the kinds of
// chord among the choices alone guess 2.7 points above chance, with 0.5 less than 1, with 1 more again.
const clashWeight = 0.5

// inTurn puts targets in a random order. Those that clash with others are left out more often, and so would be
// right more often where they stand: they come earlier for it.
func inTurn(ids []string, clash func(a, b string) bool, rng *rand.Rand) []string {
	type picked struct {
		id  string
		key float64
	}
	var all []picked
	for _, id := range ids {
		weight := 1.0
		for _, other := range ids {
			if other != id && clash(id, other) {
				weight += clashWeight
			}
		}
		// The smallest of exponential times: picked in turn with these weights (Efraimidis and Spirakis, 2006).
		all = append(all, picked{id, rng.ExpFloat64() / weight})
	}
	slices.SortFunc(all, func(a, b picked) int { return cmp.Compare(a.key, b.key) })
	out := make([]string, len(all))
	for i, d := range all {
		out[i] = d.id
	}
	return out
}

// Weighted picks one of a list, each as often as its weight is large.
func Weighted[T any](list []T, weight func(T) float64, rng *rand.Rand) T {
	sum := 0.0
	for _, x := range list {
		sum += weight(x)
	}
	at := rng.Float64() * sum
	for _, x := range list[:len(list)-1] {
		if at -= weight(x); at < 0 {
			return x
		}
	}
	return list[len(list)-1]
}

// SomeOf picks some of a list and keeps their order.
func SomeOf[T any](list []T, count int, rng *rand.Rand) []T {
	picked := rng.Perm(len(list))[:min(count, len(list))]
	slices.Sort(picked)
	var out []T
	for _, n := range picked {
		out = append(out, list[n])
	}
	return out
}

// Never is for drills whose targets cannot clash.
func Never(a, b string) bool { return false }
