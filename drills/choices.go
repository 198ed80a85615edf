package drills

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"slices"
)

// mostChoices is how many answers a question offers at the most: few enough to weigh each one by
// ear, and each on one key.
const mostChoices = 5

// enoughChoices is how many answers a question offers where fewer are worth asking for. One of them is asked for, picked
// from all: with more of them what is worth asking comes less often, and with fewer a guess is right more often.
const enoughChoices = 4

// pick picks the targets that stand among a question's choices: the one asked for, the one it is set
// against, and others in play picked at random, so that neither its place nor its company tells which
// is right. No two of them clash, that is, could both be right names of one sound. They come in the
// order of all.
func pick(all []Target, r Request, clash func(a, b string) bool) ([]Target, error) {
	if out := r.settled(all); out != nil {
		return out, nil
	}
	if !slices.ContainsFunc(all, func(t Target) bool { return t.ID == r.Target }) {
		return nil, fmt.Errorf("%q is nothing this drill asks", r.Target)
	}
	picked := []string{r.Target}
	add := func(id string) {
		fits := len(picked) < mostChoices && !slices.Contains(picked, id) &&
			!slices.ContainsFunc(picked, func(p string) bool { return clash(p, id) })
		if fits {
			picked = append(picked, id)
		}
	}
	if r.Against != "" {
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
	most := mostChoices
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
	if near := all[indexOf(all, r.Target)].Near; len(r.InPlay) == 1 {
		for _, i := range r.Rand.Perm(len(near)) {
			if len(picked) < 2 && isTarget(all, near[i]) {
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
	var out []Target
	for _, t := range all {
		if slices.Contains(picked, t.ID) {
			out = append(out, t)
		}
	}
	return out, nil
}

// anyFirst reports whether any of some choices was never asked.
func (r Request) anyFirst(choices []Target) bool {
	return r.First || r.Anew != nil && r.Anew.isNew != nil && slices.ContainsFunc(choices, func(t Target) bool { return r.Anew.isNew(t.ID) })
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

// weighted picks one of a list, each as often as its weight is large.
func weighted[T any](list []T, weight func(T) float64, rng *rand.Rand) T {
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

// someOf picks some of a list and keeps their order.
func someOf[T any](list []T, count int, rng *rand.Rand) []T {
	picked := rng.Perm(len(list))[:min(count, len(list))]
	slices.Sort(picked)
	var out []T
	for _, n := range picked {
		out = append(out, list[n])
	}
	return out
}

// never is for drills whose targets cannot clash.
func never(a, b string) bool { return false }
