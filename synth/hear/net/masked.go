package net

import (
	"math"
	"slices"
)

// A string that sounds an octave, or a few partials, above another that is struck with it has no partial of its own: the lower string masks
// it. Levels over half a second do not tell whether it sounds. What tells is how its partials begin and go on, beside the lower string's
// partials that it does not share:
//
//	lower    1   2   3   4   5   6      begins, and falls away smoothly
//	upper        1       2       3      begins later in the stroke, a few cents off: what they share rises twice, and beats
//	shared       ▲       ▲       ▲
//	beside   ▲       ▲       ▲          the lower string alone
//
// So each of ten partials is followed in time: how strong it is in some short windows about the stroke's beginning, how far it then is
// from one sine that falls, and how far off it lies.

// Above is how many semitones a masked string lies above the one that masks it: 2, 3, 4, 5 and 6 times its frequency.
var Above = []int{12, 19, 24, 28, 31}

// around is how many semitones above a masked string those others lie of which the net is told whether they sound.
var around = []int{-31, -28, -24, -19, -12, -7, -5, 5, 7, 12, 19, 24}

// MaskedBy returns how many semitones below a string the nearest lies that masks it, 0 if none does; sounds reports whether a string
// sounds so many semitones above it.
func MaskedBy(sounds func(semitones int) bool) int {
	for _, a := range Above {
		if sounds(-a) {
			return a
		}
	}
	return 0
}

const (
	blockTime   = 0.005 // seconds of sound that become one value of a trail
	shortTime   = 0.06  // of a short window, in seconds
	ownPartials = 6     // of the masked string that are followed
	beside      = 4     // partials that only the lower string has
	followed    = ownPartials + beside
	ringFrom    = 0.25 // seconds after a stroke begins, from when partials are compared to one that falls
)

var (
	shortAt = []float64{-0.03, 0.02, 0.045, 0.07, 0.1, 0.14, 0.19} // the middles of the short windows, in seconds after a stroke began
	lags    = []int{12, 48}                                        // blocks over which a partial is compared to itself
)

// perPartial is how many values a partial gives.
var perPartial = len(shortAt) + 2 + len(lags) + 1

// MaskedInputs is how many values the net of masked strings takes.
var MaskedInputs = followed*perPartial + len(around) + StrumInputs

// Masked appends what a net sees of a pitch of f Hz, struck at a time in seconds from the first sample, that another string masks; sounds is
// as for MaskedBy. Spectra are the stroke's, of StrumSpectra, and end is when they end.
func Masked(out []float32, samples []float64, rate, at, end, f float64, sounds func(semitones int) bool, spectra []Spectrum) []float32 {
	times := float64(2 + slices.Index(Above, MaskedBy(sounds)))
	places := []float64{1 - 1/times, 1 + 1/times, 2 - 1/times, 2 + 1/times}
	for n := range ownPartials {
		places = append(places, float64(n+1))
	}
	var top float64
	for _, s := range spectra {
		top = max(top, s.loudest())
	}
	for _, place := range places {
		out = newTrail(samples, rate, at-0.07, end, f*place).values(out, at, end, f*place, top)
	}
	for _, a := range around {
		is := float32(-1)
		if sounds(a) {
			is = 1
		}
		out = append(out, is)
	}
	return levels(out, f, top, spectra)
}

// trail is one frequency in time: its amplitude and phase, block by block.
type trail struct {
	from   float64 // seconds
	blocks []complex128
}

// newTrail follows f Hz from one time to another.
func newTrail(samples []float64, rate, from, to, f float64) trail {
	block := int(math.Round(blockTime * rate))
	t := trail{from, make([]complex128, max(1, int((to-from)*rate)/block))}
	sin, cos := math.Sincos(-2 * math.Pi * f / rate)
	re, im := 1.0, 0.0
	first := int(math.Round(from * rate))
	for i := range t.blocks {
		var sr, si float64
		for k := first + i*block; k < first+(i+1)*block; k++ {
			if k >= 0 && k < len(samples) {
				sr, si = sr+samples[k]*re, si+samples[k]*im
			}
			re, im = re*cos-im*sin, re*sin+im*cos
		}
		t.blocks[i] = complex(2*sr/float64(block), 2*si/float64(block))
		size := 1 / math.Hypot(re, im)
		re, im = re*size, im*size
	}
	return t
}

// window returns what the trail is on average between two blocks, under a Hann window.
func (t trail) window(first, last int) complex128 {
	var sum complex128
	for i := max(0, first); i < min(last, len(t.blocks)); i++ {
		w := 1 - math.Cos(2*math.Pi*(float64(i-first)+0.5)/float64(last-first))
		sum += complex(w, 0) * t.blocks[i]
	}
	return sum / complex(float64(max(1, last-first)), 0)
}

// values appends what a net sees of the trail: levels in dB below a power, in the short windows and in two longer ones; how far it is from a
// sine that falls; and how far off its place it lies.
func (t trail) values(out []float32, at, end, f, top float64) []float32 {
	block := func(time float64) int { return int(math.Round((time - t.from) / blockTime)) }
	level := func(z complex128) float32 {
		power := real(z)*real(z) + imag(z)*imag(z)
		db := -deepest
		if power > 0 && top > 0 {
			db = math.Max(-deepest, math.Min(20, 10*math.Log10(power/top)))
		}
		return float32(math.Min(1, 1+db/(deepest/2)))
	}
	half := block(t.from + shortTime/2)
	for _, m := range shortAt {
		out = append(out, level(t.window(block(at+m)-half, block(at+m)+half)))
	}
	middle := (at + Settle + end) / 2
	out = append(out, level(t.window(block(at+Settle), block(middle))), level(t.window(block(middle), block(end))))
	var ring []complex128
	for i := block(at + ringFrom); i+2*half <= block(end); i += 3 {
		ring = append(ring, t.window(i, i+2*half))
	}
	off := 0.0
	for n, lag := range lags {
		var across complex128
		var first, second float64
		for i := 0; i+lag/3 < len(ring); i++ {
			a, b := ring[i], ring[i+lag/3]
			across += complex(real(a), -imag(a)) * b
			first, second = first+real(a)*real(a)+imag(a)*imag(a), second+real(b)*real(b)+imag(b)*imag(b)
		}
		strays := 1.0
		if first > 0 && second > 0 {
			strays = 1 - (real(across)*real(across)+imag(across)*imag(across))/first/second
		}
		out = append(out, float32(1+math.Log10(math.Max(strays, 1e-4))/2)) // -1: none
		if n == 0 {
			hz := math.Atan2(imag(across), real(across)) / (2 * math.Pi * float64(lag) * blockTime)
			off = 1200 * math.Log2(math.Max(0.5, 1+hz/f))
		}
	}
	return append(out, float32(math.Max(-1, math.Min(1, off/30))))
}
