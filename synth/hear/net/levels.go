package net

import "math"

// partials is how many partials of a note are looked at. The places are multiples of its frequency: at its partials, between them, a
// semitone below and above them, and where partials of a note an octave and a fifth, or two octaves, below it would lie.
const partials = 12

// PerSpectrum is how many levels a note has in one spectrum.
const PerSpectrum = 4*partials + 6

var (
	semitone = math.Exp2(1.0 / 12)
	places   = func() (out [PerSpectrum]float64) {
		for n := range partials {
			k := float64(n + 1)
			out[n], out[partials+n], out[2*partials+n], out[3*partials+n] = k, k-0.5, k/semitone, k*semitone
		}
		copy(out[4*partials:], []float64{1.0 / 4, 1.0 / 3, 2.0 / 3, 3.0 / 4, 4.0 / 3, 5.0 / 3})
		return out
	}()
)

const (
	levelPart = 0.0128 // a partial is looked for so far about its place, as a part of it: 22 cents
	deepest   = 80.0   // dB below the strongest at which a level is as good as none
)

// Levels appends the levels of a note of f Hz in some spectra to out: of each spectrum PerSpectrum, in dB below the strongest frequency
// in any of them, scaled to -1 (deepest) to 1.
func Levels(out []float32, f float64, spectra ...Spectrum) []float32 {
	var top float64
	for _, s := range spectra {
		top = max(top, s.loudest())
	}
	return levels(out, f, top, spectra)
}

// levels is Levels for spectra of which the strongest power is known.
func levels(out []float32, f, top float64, spectra []Spectrum) []float32 {
	for _, s := range spectra {
		for _, place := range places {
			db := -deepest
			if p := s.at(f*place, levelPart); p > 0 && top > 0 {
				db = max(db, 10*math.Log10(p/top))
			}
			out = append(out, float32(1+db/(deepest/2)))
		}
	}
	return out
}
