package neck

import (
	"slices"

	"sparetone/drills/chord"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// Changes returns what the shapes of a plain chord can become by moving one string, as the table of
// additions has it; shapes of a chord that is complete, no harder than others.
func (i *Instrument) Changes(plain theory.Chord) []Change {
	shapes := i.Shapes(plain)
	i.neck.lock.Lock()
	defer i.neck.lock.Unlock()
	if out, known := i.neck.swaps[plain]; known {
		return out
	}
	var out []Change
	for _, h := range shapes {
		for _, s := range fret.Swaps(i.Tuning, h.Shape, plain, nil) {
			if c := (Change{plain, s}); s.Effort <= MostEffort && s.Chord.Without == 0 && chord.IsAddition(plain.Kind, s.Chord.Kind) && i.mayMove(c) {
				out = append(out, c)
			}
		}
	}
	if i.neck.swaps == nil {
		i.neck.swaps = map[theory.Chord][]Change{}
	}
	i.neck.swaps[plain] = out
	return out
}

// changesOf returns those of the changes of a plain chord that lead to a kind.
func (i *Instrument) changesOf(plain theory.Chord, coloured string) []Change {
	list := i.Changes(plain)
	i.neck.lock.Lock()
	defer i.neck.lock.Unlock()
	to := recolouring{plain, coloured}
	if out, known := i.neck.swapsTo[to]; known {
		return out
	}
	out := where(list, func(c Change) bool { return c.Chord.Kind.ID == coloured })
	if i.neck.swapsTo == nil {
		i.neck.swapsTo = map[recolouring][]Change{}
	}
	i.neck.swapsTo[to] = out
	return out
}

// ChangesTo returns the ways to a coloured chord of a kind from a plain one, on every root, as far as the
// student's reach goes.
func (i *Instrument) ChangesTo(plain *theory.Kind, coloured string, reach float64) []Change {
	var all [][]Change
	var first []Held
	if reach < NewReach {
		first = i.FirstShapes(plain)
	}
	for _, r := range i.RootsFor(plain) {
		list := i.changesOf(theory.NewChord(r, plain), coloured)
		if len(first) > 0 {
			list = where(list, func(c Change) bool { return slices.ContainsFunc(first, c.from) })
		}
		all = append(all, list)
	}
	if len(first) > 0 {
		return slices.Concat(all...)
	}
	return Within(all, reach, func(c Change) float64 { return c.Effort })
}

// where returns what of a list is as wanted, in its order.
func where[T any](list []T, wanted func(T) bool) []T {
	var out []T
	for _, x := range list {
		if wanted(x) {
			out = append(out, x)
		}
	}
	return out
}
