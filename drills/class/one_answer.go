package class

import (
	"cmp"
	"math"
	"slices"

	"sparetone/drills"
	"sparetone/progress"
	"sparetone/progress/memory"
	"sparetone/theory/read"
)

// favourite is what is answered most often in a drill to questions about something else, for how little luck explains it.
type favourite struct {
	Finding
	stands bool // it is answered so often, and to so many things, that it may be said of the drill
	things int  // that were ever answered there in place of others
}

// oneAnswer finds something that is answered to whatever is asked in a drill: nearly whenever it can be chosen and something else is right, for
// several things, and that far more often than picking a choice at random gives. How far luck explains it is asked of the drill by itself, and of
// all drills together (Fisher's method), since who answers so does it in each; of two tests each has half of the error. Luck is 1 where there
// is no such thing.
//
// Of answers from before it was kept what there was to choose from, only how many choices there were is known. So whether the thing stood among
// them is not, luck is overstated, and it takes many answers. Until then nobody is said to guess who may answer always the same.
func oneAnswer(p *practised, counts []answer) Finding {
	byDrill := map[onTuning][]answer{}
	for _, a := range counts {
		if t := p.things[a.thing]; a.choices > 0 {
			in := onTuning{t.Drill, t.Tuning}
			byDrill[in] = append(byDrill[in], a)
		}
	}
	var all []favourite
	answered := 0 // things, in all drills
	for in, answers := range byDrill {
		f := favouriteOf(p, in, answers)
		if answered += f.things; f.Of >= others {
			all = append(all, f)
		}
	}
	slices.SortFunc(all, func(a, b favourite) int {
		return cmp.Or(cmp.Compare(a.Answer, b.Answer), cmp.Compare(a.Drill, b.Drill))
	})
	together := fisher(all)
	stand := slices.DeleteFunc(all, func(f favourite) bool { return !f.stands })
	if len(stand) == 0 {
		return Finding{Luck: 1}
	}
	best := slices.MinFunc(stand, func(a, b favourite) int { return cmp.Or(cmp.Compare(a.Luck, b.Luck), cmp.Compare(a.Answer, b.Answer)) }).Finding
	best.Luck = min(1, 2*min(best.Luck*float64(answered), together))
	return best
}

// tries are the questions of a drill that something else than one answer was right for, and what was answered to them.
type tries struct {
	asked, missed, answered int // missed: it could be chosen, or nobody knows, and what is right was not answered
	chance                  float64
	offered                 bool           // of each question it is known that it could be chosen
	taken                   map[int32]bool // things that it was answered to
}

func (t *tries) stands() bool {
	return t.asked >= others && float64(t.answered) >= often*float64(t.missed) && float64(t.answered) >= third*float64(t.asked) && len(t.taken) >= kindsTaken
}

// answersOf are what can be answered in a drill, by number: of a thing, or of a choice that is none, less than 0.
type answersOf struct {
	p     *practised
	in    onTuning
	known map[int32]int32 // numbers by choices
	tried map[int32]*tries
}

// number returns the number of a choice. A chord is the thing that is its kind, if there is one: whatever the root, the same is answered.
func (o *answersOf) number(choice int32) int32 {
	n, met := o.known[choice]
	if met {
		return n
	}
	id := o.p.choices[choice].id
	n, met = o.p.thing[drills.ItemID(o.in.drill, id, o.in.tuning)]
	if chord, err := read.Chord(id); !met && err == nil {
		n, met = o.p.thing[drills.ItemID(o.in.drill, chord.Kind.ID, o.in.tuning)]
	}
	if !met {
		n = -1 - choice
	}
	o.known[choice] = n
	return n
}

// try counts a question as one that each of the choices stood among but was not right for.
func (o *answersOf) try(a answer) {
	all := make([]int32, 0, 8)
	for _, choice := range o.p.offers[a.offer] {
		all = append(all, o.number(choice))
	}
	for place, n := range all {
		if n == a.thing || slices.Contains(all[:place], n) {
			continue
		}
		chosen, alike := false, 0
		for other, m := range all {
			if m == n {
				alike++
				chosen = chosen || other+1 == int(a.chosen)
			}
		}
		if chosen && a.result == progress.Right {
			continue
		}
		t := o.of(n)
		t.asked++
		t.missed++
		t.chance += float64(alike) / float64(a.choices)
		if chosen {
			t.answered++
			t.taken[a.thing] = true
		}
	}
}

// of returns what was tried of a number.
func (o *answersOf) of(n int32) *tries {
	if o.tried[n] == nil {
		o.tried[n] = &tries{offered: true, taken: map[int32]bool{}}
	}
	return o.tried[n]
}

// name returns what a number is called.
func (o *answersOf) name(n int32) string {
	if n < 0 {
		return o.p.choices[-1-n].said
	}
	return o.p.things[n].Name
}

// favouriteOf finds the favourite answer of a drill, with the chance that luck alone gives as much of this one.
func favouriteOf(p *practised, in onTuning, answers []answer) (best favourite) {
	o := &answersOf{p, in, map[int32]int32{}, map[int32]*tries{}}
	// Of what is not known to have stood there, all questions about something else count.
	type sum struct {
		asked, missed int
		chance        float64
	}
	var all sum
	about := map[int32]*sum{}
	for _, a := range answers {
		if a.offer != 0 {
			o.try(a)
			continue
		}
		if about[a.thing] == nil {
			about[a.thing] = &sum{}
		}
		missed := 0
		if a.result != progress.Right {
			missed = 1
			if a.takenFor >= 0 && a.takenFor != a.thing {
				t := o.of(a.takenFor)
				t.answered++
				t.taken[a.thing] = true
			}
		}
		for _, s := range []*sum{&all, about[a.thing]} {
			s.asked++
			s.missed += missed
			s.chance += 1 / float64(a.choices)
		}
	}
	best.Luck = 1
	for n, t := range o.tried {
		if t.answered == 0 {
			continue
		}
		best.things++
		if n >= 0 && all.asked > 0 {
			own := about[n]
			if own == nil {
				own = &sum{}
			}
			t.asked, t.missed, t.chance, t.offered = t.asked+all.asked-own.asked, t.missed+all.missed-own.missed, t.chance+all.chance-own.chance, false
		}
		luck := atLeastByLuck(memory.Tally{Asked: t.asked, Right: t.answered, Guessed: t.chance})
		if name := o.name(n); best.Answer == "" || luck < best.Luck || luck == best.Luck && name < best.Answer {
			best.Finding = Finding{Verdict: OneAnswer, Drill: in.drill, Answer: name, Times: t.answered, Of: t.asked, Offered: t.offered, Luck: luck}
			best.stands = t.stands()
		}
	}
	return best
}

// fisher is the chance that luck alone makes so many favourites of several drills, each by itself and the less luck explains it the more.
//
// Source: R. A. Fisher, Statistical Methods for Research Workers, section 21.1 (from memory): twice the sum of the negative logarithms of k
// chances that are as likely as they say is distributed as chi squared with 2k degrees of freedom, of which the upper tail is a sum of k terms.
func fisher(all []favourite) float64 {
	half := 0.0
	for _, f := range all {
		half -= math.Log(max(math.SmallestNonzeroFloat64, min(1, f.Luck*float64(f.things)))) // each thing has its part of the error
	}
	sum, term := 1.0, 1.0
	for k := 1; k < len(all); k++ {
		term *= half / float64(k)
		sum += term
	}
	return min(1, math.Exp(-half)*sum)
}
