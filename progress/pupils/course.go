package pupils

import (
	"slices"
	"strings"

	"sparetone/progress/plan"
)

// Course is what is taught, as numbers.
type Course struct {
	Items []plan.Candidate
	place map[string]int
	near  [][]pairing // what each item is mistaken for
	rest  []pairing   // each item beside all else of its drill
	drill []int       // the number of each item's drill
	among []int       // answers that a question of the item offers where enough of its drill was met; 0 if it is free
	kinds int         // pairs of kinds there are, whatever the drill
	pairs int         // pairs there are, each drill's apart
}

// pairing is one side of a pair of items that are told apart.
type pairing struct {
	other int // item; -1 for all else
	kinds int // number of the pair of kinds, the same in every drill
	pair  int // number of the pair in its drill
}

// NewCourse numbers a course. Among says how many answers a question of an item offers, 0 if it is answered freely.
func NewCourse(items []plan.Candidate, among func(plan.Candidate) int) *Course {
	c := &Course{Items: items, place: map[string]int{}, near: make([][]pairing, len(items)), rest: make([]pairing, len(items)),
		drill: make([]int, len(items)), among: make([]int, len(items))}
	drills, kinds, pairs := map[string]int{}, map[string]int{}, map[string]int{}
	number := func(of map[string]int, name string) int {
		n, ok := of[name]
		if !ok {
			n = len(of)
			of[name] = n
		}
		return n
	}
	pairOf := func(drill, a, b string, other int) pairing {
		both := []string{a, b}
		slices.Sort(both)
		name := strings.Join(both, " ")
		return pairing{other, number(kinds, name), number(pairs, drill+" "+name)}
	}
	for i, it := range items {
		c.place[it.Item] = i
	}
	for i, it := range items {
		c.drill[i], c.among[i] = number(drills, it.Drill), among(it)
		target := targetOf(it.Item)
		for _, n := range it.Near {
			if j, ok := c.place[n]; ok {
				c.near[i] = append(c.near[i], pairOf(it.Drill, target, targetOf(n), j))
			}
		}
		a, b, isPair := strings.Cut(target, "-or-") // an item that is itself a pair of kinds
		if !isPair {
			b = "all else"
		}
		c.rest[i] = pairOf(it.Drill, a, b, -1)
	}
	c.kinds, c.pairs = len(kinds), len(pairs)
	return c
}

// targetOf is the middle part of an item's id.
func targetOf(item string) string {
	parts := strings.Split(item, "/")
	return parts[min(1, len(parts)-1)]
}
