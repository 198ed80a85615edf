package synth

import "math"

// A peak may fall between samples. ITU-R BS.1770-5, annex 2, finds it by computing three points between
// each two samples, with a filter of 12 taps a point.

const (
	points     = 4
	peakTaps   = 12
	nearEnough = 0.7 // of the highest sample: elsewhere no point between samples can be the highest
)

// between are the filters for the points between samples: a windowed sinc, delayed by i/4 of a sample.
var between = func() (f [points - 1][peakTaps]float64) {
	for i := range f {
		at := float64(i+1) / points
		var sum float64
		for k := range f[i] {
			t := float64(k-peakTaps/2+1) - at
			window := math.Cos(math.Pi * t / (peakTaps + 1))
			f[i][k] = math.Sin(math.Pi*t) / (math.Pi * t) * window * window
			sum += f[i][k]
		}
		for k := range f[i] {
			f[i][k] /= sum
		}
	}
	return f
}()

// truePeak returns the highest absolute value that samples reach, also between them.
func truePeak(samples []float32) float64 {
	var peak float32
	for _, x := range samples {
		peak = max(peak, x, -x)
	}
	top := float64(peak)
	for i := peakTaps/2 - 1; i+peakTaps/2 < len(samples); i++ {
		if x := samples[i]; max(x, -x) < nearEnough*peak {
			continue
		}
		around := samples[i-peakTaps/2+1 : i+peakTaps/2+1]
		for _, f := range between {
			var v float64
			for k, x := range around {
				v += f[k] * float64(x)
			}
			top = max(top, math.Abs(v))
		}
	}
	return top
}
