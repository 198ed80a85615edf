package neck

import (
	"math"

	"sparetone/drills/chord"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// shapesTried is how many shapes of a chord are looked at, the easiest first, for those that can resolve.
const shapesTried = 5 * easiestShapes

// resolving returns the shapes of a chord that can resolve, as many as questions are made from, the easiest first.
func (i *Instrument) resolving(r theory.Resolution, root theory.Note) []Resolved {
	i.neck.lock.Lock()
	defer i.neck.lock.Unlock()
	c := theory.NewChord(root, r.From)
	if out, known := i.neck.leads[c]; known {
		return out
	}
	var out []Resolved
	for _, h := range i.held(c, shapesTried) {
		if v, err := h.Voice(i); err == nil && len(out) < easiestShapes {
			if to, ok := i.leadsTo(r, v); ok {
				out = append(out, Resolved{h, to})
			}
		}
	}
	if i.neck.leads == nil {
		i.neck.leads = map[theory.Chord][]Resolved{}
	}
	i.neck.leads[c] = out
	return out
}

// leadsTo returns the shape in which a chord resolves, if there is one within the hand's reach. The neck is locked.
func (i *Instrument) leadsTo(r theory.Resolution, from fret.Voicing) (to fret.Voicing, ok bool) {
	goal, least := r.Goal(from.Chord.Root), math.MaxInt
	shapes, known := i.neck.goals[goal]
	if !known {
		for _, h := range i.easiest(goal, 0) {
			if v, err := h.Voice(i); err == nil {
				shapes = append(shapes, v)
			}
		}
		if i.neck.goals == nil {
			i.neck.goals = map[theory.Chord][]fret.Voicing{}
		}
		i.neck.goals[goal] = shapes
	}
	for _, v := range shapes {
		if way := Travel(from.Shape, v.Shape); way < least && fret.Reaches(from.Shape, v.Shape) && fret.Leads(r, from, v) {
			to, least = v, way
		}
	}
	return to, least < math.MaxInt
}

// ResolvingOf returns the shapes of a kind of chord that can resolve, on every root on which the triad they become is
// written as players like to read it, as far as the student's reach goes.
func (i *Instrument) ResolvingOf(r theory.Resolution, reach float64) []Resolved {
	var all [][]Resolved
	for _, root := range i.RootsFor(r.From) {
		if !chord.OddlyWritten(r.Goal(root)) {
			all = append(all, i.resolving(r, root))
		}
	}
	return Within(all, reach, func(h Resolved) float64 { return h.Effort })
}
