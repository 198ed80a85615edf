package class

import (
	"cmp"
	"math"
	"slices"

	"sparetone/progress"
	"sparetone/progress/memory"
)

// favourite is what is answered most often in a drill to questions about something else, for how little luck explains it.
type favourite struct {
	Finding
	stands bool // it is answered so often, and to so many things, that it may be said of the drill
	things int  // that were ever answered there in place of others
}

// oneAnswer finds a thing that is answered to whatever is asked in a drill: most that is missed there is taken for it, several things
// are, and that far more often than picking a choice at random gives. How far luck explains it is asked of the drill by itself, and of
// all drills together (Fisher's method), since who answers so does it in each; of two tests each has half of the error. Luck is 1 where there
// is no such thing.
//
// Which choices a question had is not kept, only how many. So whether the thing stood among them is not known, luck is overstated, and it takes
// many answers. Until then nobody is said to guess who may answer always the same.
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
	for _, answers := range byDrill {
		f := favouriteOf(p, answers)
		if answered += f.things; f.Of >= others {
			all = append(all, f)
		}
	}
	slices.SortFunc(all, func(a, b favourite) int { return cmp.Compare(a.Answer, b.Answer) })
	together := fisher(all)
	stand := slices.DeleteFunc(all, func(f favourite) bool { return !f.stands })
	if len(stand) == 0 {
		return Finding{Luck: 1}
	}
	best := slices.MinFunc(stand, func(a, b favourite) int { return cmp.Or(cmp.Compare(a.Luck, b.Luck), cmp.Compare(a.Answer, b.Answer)) }).Finding
	best.Luck = min(1, 2*min(best.Luck*float64(answered), together))
	best.Answer = p.things[p.thing[best.Answer]].Name
	return best
}

// favouriteOf finds the favourite answer of a drill, by its item, with the chance that luck alone gives as much of this one thing.
func favouriteOf(p *practised, answers []answer) (best favourite) {
	type tries struct {
		asked, missed, answered int
		chance                  float64
		taken                   map[int32]bool
	}
	answered := map[int32]*tries{}
	for _, a := range answers {
		if a.takenFor >= 0 && a.result != progress.Right && answered[a.takenFor] == nil {
			answered[a.takenFor] = &tries{taken: map[int32]bool{}}
		}
	}
	best.Luck, best.things = 1, len(answered)
	for thing, t := range answered {
		for _, a := range answers {
			if a.thing == thing {
				continue
			}
			t.asked++
			t.chance += 1 / float64(a.choices)
			if a.result == progress.Right {
				continue
			}
			t.missed++
			if a.takenFor == thing {
				t.answered++
				t.taken[a.thing] = true
			}
		}
		luck := atLeastByLuck(memory.Tally{Asked: t.asked, Held: t.answered, Guessed: t.chance})
		if item := p.things[thing].Item; best.Answer == "" || luck < best.Luck || luck == best.Luck && item < best.Answer {
			best.Finding = Finding{Verdict: OneAnswer, Drill: p.things[thing].Drill, Answer: item, Times: t.answered, Of: t.asked, Luck: luck}
			best.stands = t.asked >= others && float64(t.answered) >= often*float64(t.missed) && float64(t.answered) >= third*float64(t.asked) && len(t.taken) >= kindsTaken
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
