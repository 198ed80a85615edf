// Package fair picks what stands among a question's choices, and in which shape it is asked, so that nothing but music tells which
// choice is right.
package fair

import (
	"maps"
	"math/rand/v2"
	"slices"

	"sparetone/drills"
)

// Nothing but music may tell which choice is right: not how low a chord lies, how many strings it takes or
// where on the neck it is held. So the choices are picked first, without regard to which of them is asked for.
// Then a feature is picked that every one of the choices could have had; and only then what is asked, among
// all that has this feature. Whoever sees or hears no more than the feature knows no more than the choices.

// Feature is what could be noticed of a question beside its music. The function that makes one says what its numbers mean; those that it
// does not use are 0.
type Feature [3]int

// Wider is by how much a match widens the reach (0 to 1, of the neck) each time nothing within it is alike.
const Wider = 0.25

// Match picks one of the options of the right choice. options returns those of each choice, within a reach;
// features are ways to look at one, from the strictest, and the first is used in which all choices can be alike. If they are alike in
// none, it picks one of the right choice's own options, from all of the neck. right is an index in the choices.
// It reports false if the right choice has no options at all.
func Match[T any](r drills.Request, right int, options func(reach float64) [][]T, features ...func(T) Feature) (T, bool) {
	for _, feature := range features {
		if o, ok := alike(r, right, options, feature); ok {
			return o, true
		}
	}
	var none T
	if list := options(1)[right]; len(list) > 0 {
		return list[r.Rand.IntN(len(list))], true
	}
	return none, false
}

// alike picks one of the options of the right choice that looks as some option of every other does, if need be
// further along the neck. It reports false if there is none.
func alike[T any](r drills.Request, right int, options func(reach float64) [][]T, feature func(T) Feature) (T, bool) {
	if like := AllAlike(r, options, feature); like != nil {
		return like[right][r.Rand.IntN(len(like[right]))], true
	}
	var none T
	return none, false
}

// AllAlike picks a feature that some option of every choice has, if need be further along the neck, and returns the options of each choice
// that have it; nil if there is no such feature.
func AllAlike[T any](r drills.Request, options func(reach float64) [][]T, feature func(T) Feature) [][]T {
	for reach := r.Reach; ; reach = min(1, reach+Wider) {
		lists := options(reach)
		if shared := InAll(lists, feature); len(shared) > 0 {
			picked := shared[r.Rand.IntN(len(shared))]
			like := make([][]T, len(lists))
			for n, list := range lists {
				for _, o := range list {
					if feature(o) == picked {
						like[n] = append(like[n], o)
					}
				}
			}
			return like
		}
		if reach >= 1 {
			return nil
		}
	}
}

// InAll returns the features that some option of every choice has, in a fixed order.
func InAll[T any](lists [][]T, feature func(T) Feature) []Feature {
	var shared map[Feature]bool
	for _, list := range lists {
		here := map[Feature]bool{}
		for _, o := range list {
			if f := feature(o); shared == nil || shared[f] {
				here[f] = true
			}
		}
		shared = here
	}
	return slices.SortedFunc(maps.Keys(shared), func(a, b Feature) int { return slices.Compare(a[:], b[:]) })
}

// AlikeLists picks at random up to most of the lists such that all of them share a feature, and returns their indexes in order.
func AlikeLists[T any](lists [][]T, most int, feature func(T) Feature, rng *rand.Rand) []int {
	var indexes []int
	var met [][]T
	for _, n := range rng.Perm(len(lists)) {
		if len(indexes) < most && len(InAll(append(met, lists[n]), feature)) > 0 {
			indexes, met = append(indexes, n), append(met, lists[n])
		}
	}
	slices.Sort(indexes)
	return indexes
}
