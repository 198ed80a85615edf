package drills

import (
	"slices"
	"strings"
)

// From returns the course as it is for somebody who knows what comes before a step: those steps come
// last, and nothing rests on them. Of a course without such a step it returns the course.
func (c Course) From(id string) Course {
	i := slices.IndexFunc(c, func(s Step) bool { return s.ID == id })
	if i < 0 {
		return c
	}
	known := map[string]bool{}
	for _, s := range c[:i] {
		known[s.ID] = true
	}
	out := slices.Concat(c[i:], c[:i])
	for n := range out {
		out[n].RestsOn = slices.DeleteFunc(slices.Clone(out[n].RestsOn), func(r string) bool { return known[r] })
	}
	return out
}

// Only returns a course that asks for certain items and nothing else, a step for each drill, with
// nothing resting on anything.
func Only(items []string) Course {
	var out Course
	for _, id := range items {
		drill, target, _ := SplitItem(id)
		if d, ok := ByID(drill); !ok || !slices.Contains(everyTarget(d), target) {
			continue
		}
		i := slices.IndexFunc(out, func(s Step) bool { return s.Drill == drill })
		if i < 0 {
			i = len(out)
			out = append(out, Step{ID: "only-" + drill, Drill: drill})
		}
		if !slices.Contains(out[i].Asks, target) {
			out[i].Asks = append(out[i].Asks, target)
		}
	}
	return out
}

// SplitItem takes an item id apart again.
func SplitItem(id string) (drill, target, instrument string) {
	drill, rest, _ := strings.Cut(id, "/")
	target, instrument, _ = strings.Cut(rest, "/")
	return drill, target, instrument
}
