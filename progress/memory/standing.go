package memory

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"sparetone/progress"
)

// Standing is how well one item is known, and what that rests on.
type Standing struct {
	Item   string
	Drill  string
	Chance float64   // of being right today, or tomorrow if it was asked today, by the model of it, set right by what became of other answers
	Holds  bool      // the last answer was right
	Due    time.Time // when it comes back
	Asked  int       // answers ever
	Latest Rate      // the last eight weeks
	Weak   bool      // it is right less often than it should be, and not by bad luck
	Sure   bool      // the last answers were right, two or more, and more in a row than guessing gives
	Weeks  []Week    // all weeks in which it was asked, earliest first
	Taken  []Taken   // what it was taken for in the last eight weeks, most often first
}

// Rate is a share of right answers, with the ends of its 95 % interval (Wilson). Of two answers or
// fewer the interval says how little is known.
type Rate struct {
	Tally
	Low, High float64
}

// Week is how a week's answers came out.
type Week struct {
	Begins time.Time // midnight UTC
	Tally
}

// Taken is a mistake that is made: what an item is taken for.
type Taken struct {
	Item      string
	Times     int     // of the item's answers in the last eight weeks
	Asked     int     // answers to the item in that time
	Low, High float64 // ends of the 95 % interval of the share
}

// Claimed reports whether a mistake was made often enough to be spoken of: more often than all misses together are
// likely to be where the item is right as often as it should be.
func (t Taken) Claimed() bool {
	return t.Asked >= Enough && AtMost(t.Asked-t.Times, t.Asked, Aim) < hardlyLuck
}

// RateOf returns a tally as a rate.
func RateOf(t Tally) Rate {
	low, high := wilson(t.Right, t.Asked)
	return Rate{t, low, high}
}

// Standings returns how well every item that was ever asked is known on a day, the weak ones first, then by the chance of
// being right. Drills are the drills of the items.
func (d *Derived) Standings(drills map[string]string, day progress.Day, zone *time.Location) (all []Standing) {
	weeks := map[string][]Week{}
	for k, t := range d.Weeks {
		weeks[k.Item] = append(weeks[k.Item], Week{progress.Day(k.Week * 7).Date(), t})
	}
	for id, m := range d.Memory {
		s := Standing{
			Item: id, Drill: drills[id], Chance: d.Chance(m, max(day, m.Day+1)), Holds: m.Run > 0, Due: m.Due.Begins(zone), Asked: m.Asked,
			Latest: RateOf(d.latest(id, day)), Weak: d.IsWeak(id, day), Sure: m.Run > 1 && m.luckExcluded(), Weeks: weeks[id],
		}
		for item, times := range d.TakenFor(id, day) {
			low, high := wilson(times, s.Latest.Asked)
			s.Taken = append(s.Taken, Taken{item, times, s.Latest.Asked, low, high})
		}
		slices.SortFunc(s.Taken, func(a, b Taken) int {
			return cmp.Or(cmp.Compare(b.Times, a.Times), strings.Compare(a.Item, b.Item))
		})
		slices.SortFunc(s.Weeks, func(a, b Week) int { return a.Begins.Compare(b.Begins) })
		all = append(all, s)
	}
	slices.SortFunc(all, func(a, b Standing) int {
		return cmp.Or(cmp.Compare(a.rank(), b.rank()), cmp.Compare(a.Chance, b.Chance), strings.Compare(a.Item, b.Item))
	})
	return all
}

// rank puts weak items first.
func (s Standing) rank() int {
	if s.Weak {
		return 0
	}
	return 1
}
