package drills

import (
	"slices"

	"sparetone/drills/chord"
	"sparetone/drills/neck"
	"sparetone/drills/wording"
	"sparetone/theory"
)

// KindTargets lists the chord kinds that an instrument has shapes for.
func KindTargets(on *neck.Instrument) []Target {
	var out []Target
	for _, row := range chord.AskedKinds {
		k := chord.Kind(row.ID)
		if chord.TooMany(k, on.Tuning) {
			continue
		}
		out = append(out, Target{ID: k.ID, Topic: KindTopic(k), Name: wording.Kind(k), Near: row.Near})
	}
	return out
}

// KindTopic is what the drills that teach a kind of chord are about.
func KindTopic(k *theory.Kind) Topic { return Topic{"kind", k.ID} }

// AdditionTopic is what the drills that teach an addition are about.
func AdditionTopic(a chord.Addition) Topic { return Topic{"addition", a.Coloured} }

// IsTarget reports whether an id is one of the targets.
func IsTarget(targets []Target, id string) bool {
	return IndexOf(targets, id) >= 0
}

// IndexOf returns the index of a target among others.
func IndexOf(targets []Target, id string) int {
	return slices.IndexFunc(targets, func(t Target) bool { return t.ID == id })
}

// Turned reports whether chords are asked over another note than their root.
func (r Request) Turned() bool { return r.Clarity.Turned && r.On.Turns() }

// ShapesOfEach returns the shapes within reach for each of several kinds: turned ones, if those are wanted and each of the kinds has some.
func (r Request) ShapesOfEach(kinds []Target, reach float64) [][]neck.Held {
	each := func(shapes func(*theory.Kind, float64) []neck.Held) (out [][]neck.Held) {
		for _, k := range kinds {
			out = append(out, shapes(chord.Kind(k.ID), reach))
		}
		return out
	}
	if r.Turned() {
		turned := each(r.On.TurnedShapes)
		if !slices.ContainsFunc(turned, func(list []neck.Held) bool { return len(list) == 0 }) {
			return turned
		}
	}
	return each(r.On.ShapesOf)
}
