package drills

import (
	"maps"
	"math/rand/v2"
	"slices"
)

// Nothing but music may tell which choice is right: not how low a chord lies, how many strings it takes or
// where on the neck it is held. So the choices are drawn first, without regard to which of them is asked for.
// Then a feature is drawn that every one of the choices could have had; and only then what is asked, among
// all that has this feature. Whoever sees or hears no more than the feature knows no more than the choices.

// feature is what could be noticed of a question beside its music.
type feature [3]int

// match draws one of the options of the right choice. options are those of each choice; features are ways to
// look at one, from the strictest, and the first is used in which all choices can be alike. It reports false
// if the right choice has no options.
func match[T any](rng *rand.Rand, right int, options [][]T, features ...func(T) feature) (T, bool) {
	var none T
	if len(options[right]) == 0 {
		return none, false
	}
	for _, look := range features {
		var shared map[feature]bool
		for _, list := range options {
			if len(list) == 0 {
				continue
			}
			here := map[feature]bool{}
			for _, o := range list {
				if f := look(o); shared == nil || shared[f] {
					here[f] = true
				}
			}
			shared = here
		}
		if len(shared) == 0 {
			continue
		}
		drawn := slices.SortedFunc(maps.Keys(shared), func(a, b feature) int { return slices.Compare(a[:], b[:]) })[rng.IntN(len(shared))]
		alike := slices.DeleteFunc(slices.Clone(options[right]), func(o T) bool { return look(o) != drawn })
		return alike[rng.IntN(len(alike))], true
	}
	return options[right][rng.IntN(len(options[right]))], true
}
