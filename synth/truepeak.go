package synth

import "math"

// A peak may fall between samples. ITU-R BS.1770-5, annex 2, finds it by computing three points between
// each two samples, with a filter of 12 taps a point.

const (
	points   = 4
	peakTaps = 12
)

// between are the filters for the points between samples: a windowed sinc, a quarter of a sample further
// each.
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

// overshoot is how much higher than the samples about it a point between samples can be at most: the
// sum of the absolute taps of the filter in the middle.
var overshoot = func() (most float64) {
	for _, f := range between {
		var sum float64
		for _, c := range f {
			sum += math.Abs(c)
		}
		most = max(most, sum)
	}
	return most
}()

// truePeak returns the highest absolute value that samples reach, also between them, if it is above
// limit; else something up to limit. Only where samples are high enough for that is it worth looking.
func truePeak(samples []float32, limit float64) float64 {
	worth := float32(limit / overshoot)
	var top float64
	looked := 0 // up to here
	for i, x := range samples {
		if x < worth && -x < worth {
			continue
		}
		top = max(top, math.Abs(float64(x)))
		last := min(i+peakTaps/2, len(samples)-peakTaps/2)
		for looked = max(looked, i-peakTaps/2, peakTaps/2-1); looked < last; looked++ {
			around := samples[looked-peakTaps/2+1:][:peakTaps]
			for j := range between {
				var v float64
				for k, x := range around {
					v += between[j][k] * float64(x)
				}
				top = max(top, math.Abs(v))
			}
		}
	}
	return top
}

// peakMeter finds the highest absolute value that a sound reaches, also between its samples, piece by piece.
type peakMeter struct {
	top  float64
	last []float32 // what the next piece follows on: the samples about points that are still to be looked at
}

// add looks at the next samples. Where none could lead above the highest so far there is little to do.
func (m *peakMeter) add(samples []float32) {
	m.last = append(m.last, samples...)
	m.top = max(m.top, truePeak(m.last, m.top))
	if over := len(m.last) - 2*peakTaps; over > 0 {
		m.last = append(m.last[:0], m.last[over:]...)
	}
}
