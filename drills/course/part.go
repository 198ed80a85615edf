package course

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/neck"
	"sparetone/theory/fret"
)

// From returns the course as it is for somebody at a level, on an instrument: the steps that are known come
// last, and nothing rests on them.
func (c Course) From(at Level, on *neck.Instrument) Course {
	ear := slices.IndexFunc(c, func(s Step) bool { return s.ID == at.Ear })
	eye := slices.IndexFunc(c, func(s Step) bool { return s.ID == at.Eye })
	known := map[string]bool{}
	var first, last Course
	for i, s := range c {
		if i < ear && s.byEar(on) || i < eye && !s.byEar(on) {
			known[s.ID] = true
			last = append(last, s)
		} else {
			first = append(first, s)
		}
	}
	out := append(first, last...)
	for n := range out {
		out[n].RestsOn = slices.DeleteFunc(slices.Clone(out[n].RestsOn), func(r string) bool { return known[r] })
	}
	return out
}

// byEar reports whether a step cannot be done without sound.
func (s Step) byEar(on *neck.Instrument) bool {
	d, ok := catalogue.ByID(s.Drill)
	return ok && (d.About().Ears || slices.ContainsFunc(d.Targets(on), func(t drills.Target) bool { return t.Ears && slices.Contains(s.Asks, t.ID) }))
}

// Only returns a course that asks for certain items and nothing else, a step for each drill, with
// nothing resting on anything.
func Only(items []string) Course {
	var out Course
	for _, id := range items {
		drill, target, _ := drills.SplitItem(id)
		if d, ok := catalogue.ByID(drill); !ok || !slices.Contains(everyTarget(d), target) {
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

// Knows reports whether an item's id means anything: a target that its drill has on an instrument there is.
func Knows(id string) bool {
	drill, target, instrument := drills.SplitItem(id)
	d, ok := catalogue.ByID(drill)
	if !ok {
		return false
	}
	t, err := fret.ParseTuning(instrument)
	return err == nil && slices.ContainsFunc(d.Targets(&neck.Instrument{Tuning: t}), func(t drills.Target) bool { return t.ID == target })
}
