package hear

import (
	"cmp"
	"math"
	"slices"

	"sparetone/synth/hear/net"
)

// A string that is plucked by itself while others may still ring is found in three steps: the net says, for pitches a fifth of a semitone
// apart, how likely each was plucked; of the likeliest those partials are taken that were not there before, which no other string has; and
// by these it is followed while it is turned. The sound as a whole, in which strings that ring together repeat themselves far below the
// lowest, says nothing of it.
//
//	before   ▂   ▂   ▂        what rings
//	after    ▂ █ ▂ ▆ ▂ ▅      new: 1, 2 and 3 times the string's pitch

const (
	pluckGrid   = 20.0 // cents from pitch to pitch that is tried
	pluckOdds   = 1.0  // the odds from which on a pitch was plucked, as a logarithm: whatever else sounds is no string that was plucked
	partialWide = 35.0 // cents within which a partial lies of where it should
	partialsUp  = 5    // partials that are looked at
	partialsNew = 2    // of these that have to be new
	newBy       = 4.0  // times the power before, for what is new
	weakest     = 35.0 // dB that a partial lies below the strongest of all at the most
)

// pluckHeard is a string that was plucked: its frequency, and the partials by which it is followed.
type pluckHeard struct {
	at, hz   float64
	partials []float64 // their numbers
}

// pluckAt hears what was plucked at a time, in seconds from the first sample that is kept, between two frequencies; false if nothing was for
// certain. Half a second behind it has to be there.
func pluckAt(a *net.Analyser, n *net.Net, kept []float64, at, lowest, highest float64) (pluckHeard, bool) {
	spectra := net.PluckSpectra(a, kept, at, 0)
	var grid []float64
	for f := lowest; f <= highest; f *= math.Exp2(pluckGrid / 1200) {
		grid = append(grid, f)
	}
	best, most := 0.0, pluckOdds
	for i, odds := range n.OddsOf(grid, spectra) {
		if odds > most {
			best, most = grid[i], odds
		}
	}
	if best == 0 {
		return pluckHeard{}, false
	}
	h := pluckHeard{at: at, hz: best}
	for k := 1.0; k <= partialsUp; k++ {
		after, there := strongest(spectra[2], k*best)
		before, was := strongest(spectra[0], k*best)
		if there && (!was || after.Power > newBy*before.Power) {
			h.partials = append(h.partials, k)
		}
	}
	if len(h.partials) < partialsNew {
		return pluckHeard{}, false
	}
	return h, h.follow(spectra[2])
}

// follow finds where the string is now, in a spectrum, and reports whether it still sounds.
func (h *pluckHeard) follow(s net.Spectrum) bool {
	type says struct{ hz, weight float64 }
	var all []says
	var half float64
	for _, k := range h.partials {
		if p, there := strongest(s, k*h.hz); there {
			w := math.Sqrt(p.Power) // strong ones stray least
			all, half = append(all, says{p.Hz / k, w}), half+w/2
		}
	}
	slices.SortFunc(all, func(a, b says) int { return cmp.Compare(a.hz, b.hz) })
	for _, one := range all { // the middle: one that another string lies beside does not move it
		if half -= one.weight; half <= 0 {
			h.hz = one.hz
			return true
		}
	}
	return false
}

// strongest is the strongest peak about a frequency in Hz, and whether there is one.
func strongest(s net.Spectrum, hz float64) (best net.Peak, there bool) {
	wide := math.Exp2(partialWide / 1200)
	for _, p := range s.Peaks(hz/wide, hz*wide, weakest) {
		if p.Power > best.Power {
			best = p
		}
	}
	return best, best.Power > 0
}
