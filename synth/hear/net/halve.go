package net

import "math"

// What lies above what a spectrum shows is filtered out before the transform, so that the transform is of half the samples, or of a quarter:
//
//	│▔▔▔▔▔▔▔▔▔▔╲            an even pass up to reachHz, nothing of what
//	│           ╲▁▁▁▁▁▁▁▁   would be folded back below it
//	0     reachHz  rate/2-reachHz
//
// The filter falls about a quarter of the rate, so that every second of its taps but the middle one is zero: Crochiere and Rabiner, Multirate
// Digital Signal Processing, 1983.
const (
	reachHz    = 1.2 * highestHz // what a spectrum shows, from 0 Hz
	stopDB     = 80.0            // by which the filter weakens what would be folded back
	roomToFall = 1.05            // times reachHz that half the rate must be after halving at the least: a steeper filter costs more than it saves
)

// halver filters samples and leaves out every second.
type halver struct {
	side []float64 // the taps 1, 3, 5 … samples from the middle; that of the middle is a half
}

// halvers returns what makes sound of a rate, in samples a second, as short as its spectrum lets it; none at low rates.
func halvers(rate float64) (out []halver) {
	for rate/4 >= roomToFall*reachHz {
		out = append(out, newHalver(rate))
		rate /= 2
	}
	return out
}

// newHalver returns the halver for a rate: an ideal low-pass under a Kaiser window, as long as its formula has it for stopDB and the room
// there is to fall (Kaiser, Proc. IEEE Int. Symp. Circuits and Systems, 1974).
func newHalver(rate float64) halver {
	fall := 2 * math.Pi * (rate/2 - 2*reachHz) / rate // in radians a sample
	reach := math.Ceil((stopDB - 7.95) / (2.285 * fall) / 2)
	beta := 0.1102 * (stopDB - 8.7)
	var h halver
	for k := 1.0; k <= reach; k += 2 {
		h.side = append(h.side, math.Sin(k*math.Pi/2)/(math.Pi*k)*bessel(beta*math.Sqrt(1-k*k/(reach+1)/(reach+1)))/bessel(beta))
	}
	return h
}

// bessel returns the modified Bessel function of the first kind and order zero.
func bessel(x float64) float64 {
	sum, term := 1.0, 1.0
	for k := 1.0; term > 1e-12*sum; k++ {
		term *= x * x / 4 / k / k
		sum += term
	}
	return sum
}

// margin returns how many samples on each side of one are looked at for it.
func (h halver) margin() int { return max(0, 2*len(h.side)-1) }

// halve puts every second of the samples, filtered, into out: the first is that at margin. What lies behind the last sample is not there, so
// that in must hold margin more than the last that is put out.
func (h halver) halve(out, in []float64) {
	middle := h.margin()
	for i := range out {
		at := middle + 2*i
		sum := in[at] / 2
		before, behind := at-1, at+1
		for _, tap := range h.side {
			sum += tap * (in[before] + in[behind])
			before, behind = before-2, behind+2
		}
		out[i] = sum
	}
}
