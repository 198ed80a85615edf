package hear

import (
	"cmp"
	"math"
	"slices"

	"sparetone/synth/hear/net"
)

// What was plucked so softly that nothing was found to begin, of strings plucked in turn.
const (
	seekStep  = 0.02 // seconds from one time that is tried to the next
	seekAway  = 0.09 // seconds from what was found to begin
	seekRange = 0.5  // seconds before the first pluck, and behind the last
	seekLeast = 2.0  // the odds, less what the pitch costs, from which on it was plucked
)

// What the strength of an onset says of whether something was plucked then, as the logarithm of odds: by so much the more for each e times
// the strength. Of 40 trials each by the font fluid on nylon and steel guitar 2 plucks of 100 were weaker than 2.4, and 8 of 10 other onsets; above 4.5 there was
// no other.
const (
	strengthEven  = 3.2 // of which it says nothing
	strengthPart  = 8.0
	strengthLeast = -4.0
	strengthMost  = 1.0 // little, for a knock is strong too
)

// worth is what the strength of an onset says of whether something was plucked then, as the logarithm of odds.
func (o onset) worth() float64 {
	return math.Max(strengthLeast, math.Min(strengthMost, strengthPart*math.Log(o.strength/strengthEven)))
}

// weigh weighs what was heard at some onsets.
func (l *Listener) weigh(onsets []onset, p plucked) *tally {
	odds := make([]map[int]float64, len(onsets))
	for k, o := range onsets {
		odds[k] = map[int]float64{}
		for pitch, v := range p.odds[k] {
			odds[k][pitch] = v + o.worth()
		}
	}
	return inTurn(l.task, odds)
}

// seek looks between the plucks of strings for one that is silent and should not be. It returns all onsets if it finds more of them, else
// nil.
func (l *Listener) seek(onsets []onset, p plucked, t *tally) []onset {
	if l.task.Expect == nil {
		return nil
	}
	var more []onset
	before := onset{at: onsets[0].at - seekRange - seekAway}
	for j, number := range l.task.Order {
		i := slices.IndexFunc(l.task.Strings, func(s String) bool { return s.Number == number })
		expected := l.task.Expect[i]
		if k := likeliestOf(t.at[i]); k >= 0 && t.at[i][k] > t.strings[i][Silent] {
			before = onsets[k]
			continue
		}
		if expected == Silent {
			continue
		}
		to, next := before.at+seekAway+seekRange, 0.0
		for _, later := range l.task.Order[j+1:] {
			i := slices.IndexFunc(l.task.Strings, func(s String) bool { return s.Number == later })
			if k := likeliestOf(t.at[i]); k >= 0 && t.at[i][k] > t.strings[i][Silent] {
				to, next = onsets[k].at-seekAway, onsets[k].at
				break
			}
		}
		at, most := 0.0, seekLeast
		may := l.task.Strings[i].May
		hz := l.frequencies(may, p.cents)
		for when := before.at + seekAway; when <= to && when+net.PluckTime <= l.now(); when += seekStep {
			since, nextSince := l.inKept(when), 0.0
			if next > 0 {
				nextSince = l.inKept(next)
			}
			odds := l.pluck.OddsOf(hz, net.PluckSpectra(l.analyser, l.kept, since, nextSince))
			for n, pitch := range may {
				if v := odds[n] - cost(l.task.Strings[i], expected, pitch); v > most {
					at, most = when, v
				}
			}
		}
		if at > 0 {
			more = append(more, onset{at, strengthEven})
			before = onset{at: at}
		}
	}
	if more == nil {
		return nil
	}
	more = append(more, onsets...)
	slices.SortFunc(more, func(a, b onset) int { return cmp.Compare(a.at, b.at) })
	return more
}

// likeliestOf returns the index of the highest, -1 of none.
func likeliestOf(values []float64) int {
	best := -1
	for k, v := range values {
		if best < 0 || v > values[best] {
			best = k
		}
	}
	return best
}
