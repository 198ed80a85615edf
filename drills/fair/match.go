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

// Feature is what could be noticed of a question beside its music.
type Feature [3]int

// Wider is how much further a match looks along the neck where the student's reach holds none, 0 to 1.
const Wider = 0.25

// Match picks one of the options of the right choice. options returns those of each choice, within a reach;
// features are ways to look at one, from the strictest, and the first is used in which all choices can be alike.
// It reports false if the right choice has no options at all.
func Match[T any](r drills.Request, right int, options func(reach float64) [][]T, features ...func(T) Feature) (T, bool) {
	for _, look := range features {
		if o, ok := alike(r, right, options, look); ok {
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
func alike[T any](r drills.Request, right int, options func(reach float64) [][]T, look func(T) Feature) (T, bool) {
	if like := AllAlike(r, options, look); like != nil {
		return like[right][r.Rand.IntN(len(like[right]))], true
	}
	var none T
	return none, false
}

// AllAlike picks a look that some option of every choice has, if need be further along the neck, and returns the options of each choice
// that look so; nil if there is no such look.
func AllAlike[T any](r drills.Request, options func(reach float64) [][]T, look func(T) Feature) [][]T {
	for reach := r.Reach; ; reach = min(1, reach+Wider) {
		lists := options(reach)
		if shared := InAll(lists, look); len(shared) > 0 {
			picked := shared[r.Rand.IntN(len(shared))]
			like := make([][]T, len(lists))
			for n, list := range lists {
				for _, o := range list {
					if look(o) == picked {
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
func InAll[T any](lists [][]T, look func(T) Feature) []Feature {
	var shared map[Feature]bool
	for _, list := range lists {
		here := map[Feature]bool{}
		for _, o := range list {
			if f := look(o); shared == nil || shared[f] {
				here[f] = true
			}
		}
		shared = here
	}
	return slices.SortedFunc(maps.Keys(shared), func(a, b Feature) int { return slices.Compare(a[:], b[:]) })
}

// Meeting picks lists of which each has an option that looks alike, as many as there may be, and returns their places
// in order.
func Meeting[T any](lists [][]T, most int, look func(T) Feature, rng *rand.Rand) []int {
	var places []int
	var met [][]T
	for _, n := range rng.Perm(len(lists)) {
		if len(places) < most && len(InAll(append(met, lists[n]), look)) > 0 {
			places, met = append(places, n), append(met, lists[n])
		}
	}
	slices.Sort(places)
	return places
}
