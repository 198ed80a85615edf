package net

import (
	"math"
)

// The peaks that tell how far an instrument is off: higher ones are partials that stiff strings and equal temperament put off.
const (
	centsTo     = 1100.0 // Hz
	centsWithin = 40.0   // dB below the strongest
	centsWidth  = 9.0    // cents: peaks this near to each other speak for the same
)

// Cents returns how many cents, -50 to 50, what sounds in some spectra lies above the nearest notes for A4 at a4 Hz, as a whole;
// 0 if nothing stands out.
func Cents(a4 float64, spectra ...Spectrum) float64 {
	type voter struct{ off, weight float64 }
	var votes []voter
	for _, s := range spectra {
		top := s.loudest()
		for _, p := range s.Peaks(LowestHz, centsTo, centsWithin) {
			note := 12 * math.Log2(p.Hz/a4)
			// A bin is many cents wide where it is low.
			votes = append(votes, voter{100 * (note - math.Round(note)), math.Sqrt(p.Power/top) * min(1, p.Hz/300)})
		}
	}
	if len(votes) == 0 {
		return 0
	}
	apart := func(a, b float64) float64 { return math.Remainder(a-b, 100) }
	best, most := 0.0, -1.0
	for c := -50.0; c < 50; c++ {
		var sum float64
		for _, v := range votes {
			d := apart(v.off, c) / centsWidth
			sum += v.weight * math.Exp(-d*d/2)
		}
		if sum > most {
			best, most = c, sum
		}
	}
	var sum, weight float64
	for _, v := range votes {
		if d := apart(v.off, best); math.Abs(d) < 2*centsWidth {
			w := v.weight * math.Exp(-d*d/2/centsWidth/centsWidth)
			sum, weight = sum+w*d, weight+w
		}
	}
	return math.Remainder(best+sum/weight, 100)
}
