package net

import (
	_ "embed"
	"math"
)

// The three nets: of strings struck at once, of those of them that another masks, and of one string plucked while others may ring.
var (
	//go:embed strum.net
	strumWeights []byte
	//go:embed masked.net
	maskedWeights []byte
	//go:embed pluck.net
	pluckWeights []byte
)

// Strum returns the net for strings struck at once, for the levels of StrumSpectra.
func Strum() *Net { return parsed(strumWeights) }

// OfMasked returns the net for strings struck at once of which another masks each, for what Masked returns.
func OfMasked() *Net { return parsed(maskedWeights) }

// Pluck returns the net for one string that is plucked while others may ring, for the levels of PluckSpectra.
func Pluck() *Net { return parsed(pluckWeights) }

// parsed reads weights of ours. It panics on those that cannot be read.
func parsed(b []byte) *Net {
	n, err := Parse(b)
	if err != nil {
		panic("hear: " + err.Error())
	}
	return n
}

// The stretches of sound that are looked at, in seconds.
const (
	Settle    = 0.05 // after a stroke begins, until its strings sound
	Half      = 0.5  // how long each of two windows is
	StrumTime = Settle + 2*Half
	PluckTime = 0.52 // after a pluck, until all that is looked at is there
	before    = 0.2  // how long the window before a pluck is
	shortest  = 0.12 // of the window between a pluck and the next
	longest   = 0.3
)

// StrumInputs and PluckInputs are how many levels the nets take.
const (
	StrumInputs = 2 * PerSpectrum
	PluckInputs = 3 * PerSpectrum
)

// StrumSpectra returns the two spectra that tell what was struck at a time, in seconds from the first sample, when the next
// stroke comes at another, Settle and a while later; 0 if none comes.
func StrumSpectra(a *Analyser, samples []float64, at, next float64) []Spectrum {
	end := StrumEnd(at, next)
	from, to := at+Settle, math.Min(at+Settle+Half, end)
	return []Spectrum{a.Spectrum(samples, from, to), a.Spectrum(samples, end-(to-from), end)}
}

// StrumEnd returns when what is looked at of a stroke ends, as StrumSpectra.
func StrumEnd(at, next float64) float64 {
	if next > at {
		return math.Min(at+StrumTime, next)
	}
	return at + StrumTime
}

// PluckSpectra returns the three spectra that tell what was plucked at a time, in seconds from the first sample, when the next pluck
// comes at another: before it, up to the next, and half a second whatever comes.
func PluckSpectra(a *Analyser, samples []float64, at, next float64) []Spectrum {
	short := longest
	if next > at {
		short = math.Min(longest, math.Max(shortest, next-at-0.02))
	}
	return []Spectrum{
		a.Spectrum(samples, at-before-0.015, at-0.015),
		a.Spectrum(samples, at+0.01, at+0.01+short),
		a.Spectrum(samples, at+PluckTime-Half, at+PluckTime),
	}
}

// OddsOf returns for each of some frequencies, in Hz, the logarithm of the odds that it was plucked.
func (n *Net) OddsOf(frequencies []float64, spectra []Spectrum) []float64 {
	var top float64
	for _, s := range spectra {
		top = max(top, s.loudest())
	}
	out, in := make([]float64, len(frequencies)), make([]float32, 0, n.Inputs)
	for i, f := range frequencies {
		in = levels(in[:0], f, top, spectra)
		out[i] = n.Odds(in)
	}
	return out
}
