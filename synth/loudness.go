package synth

import (
	"math"
	"math/cmplx"
)

// Loudness is how loud every rendered sound is at full gain, in LUFS: 3 LU below the programme loudness of
// EBU R 128, so that the peaks of eight strings plucked at once keep below TruePeak.
const Loudness = -26.0

// TruePeak is what no rendered sound exceeds between its samples, in dBTP (EBU R 128).
const TruePeak = -1.0

// Loudness is measured as ITU-R BS.1770-5, annex 1, has it: K-weighting, blocks of 400 ms that overlap
// by 75 %, gates at −70 LUFS and 10 LU below the mean.

// K-weighting at 48 kHz: ITU-R BS.1770-5, annex 1, tables 1 and 2.
var (
	kShelf = biquad{1.53512485958697, -2.69169618940638, 1.19839281085285, -1.69065929318241, 0.73248077421585}
	kHigh  = biquad{1, -2, 1, -1.99004745483398, 0.99007225036621}
)

// kGain returns the gain of K-weighting at w radians a sample.
func kGain(w float64) float64 { return cmplx.Abs(kShelf.response(w) * kHigh.response(w)) }

const (
	hop          = 4800 // samples in 100 ms: a block of 400 ms begins every hop
	hops         = 4    // in a block
	absoluteGate = -70  // LUFS
	relativeGate = -10  // LU
)

// meter measures a sound that both channels have alike, given to it piece by piece.
type meter struct {
	powers []float64 // K-weighted mean square of each 100 ms, summed over the channels
	peak   float32   // the highest absolute sample

	sum                    float64 // of squares since the last whole 100 ms
	n                      int     // samples since then
	x1, x2, y1, y2, z1, z2 float64 // what the filters keep
}

// add measures the next samples.
func (m *meter) add(samples []float32) {
	for len(samples) > 0 {
		part := samples[:min(hop-m.n, len(samples))]
		samples = samples[len(part):]
		m.weigh(part)
		if m.n += len(part); m.n == hop {
			m.powers = append(m.powers, 2*m.sum/hop)
			m.sum, m.n = 0, 0
		}
	}
}

// weigh adds the squares of some samples, K-weighted, to the sum.
func (m *meter) weigh(part []float32) {
	// Direct form I, written so that what waits for the last output is one product and one difference.
	x1, x2, y1, y2, z1, z2, sum, peak := m.x1, m.x2, m.y1, m.y2, m.z1, m.z2, m.sum, m.peak
	for _, s := range part {
		x := float64(s)
		y := kShelf.b0*x + kShelf.b1*x1 + kShelf.b2*x2 - kShelf.a2*y2 - kShelf.a1*y1
		z := y - 2*y1 + y2 - kHigh.a2*z2 - kHigh.a1*z1
		sum += z * z
		if s > peak {
			peak = s
		} else if -s > peak {
			peak = -s
		}
		x1, x2, y1, y2, z1, z2 = x, x1, y, y1, z, z1
	}
	m.x1, m.x2, m.y1, m.y2, m.z1, m.z2, m.sum, m.peak = x1, x2, y1, y2, z1, z2, sum, peak
}

// end completes the measurement. A last part shorter than 100 ms does not count, unless all is shorter than a
// block: then silence follows it.
func (m *meter) end() {
	if m.n > 0 && len(m.powers) < hops {
		m.powers = append(m.powers, 2*m.sum/hop)
	}
	for len(m.powers) < hops {
		m.powers = append(m.powers, 0)
	}
	m.sum, m.n = 0, 0
}

// loudness returns the integrated loudness in LUFS of a sound with the given powers, made louder by
// gain (a factor); −∞ if it is silent.
func loudness(powers []float64, gain float64) float64 {
	return gated(powers, gain, gated(powers, gain, absoluteGate)+relativeGate)
}

// gated returns the loudness in LUFS of the blocks that are louder than the gate, together.
func gated(powers []float64, gain, gate float64) float64 {
	var sum, n float64
	for i := range len(powers) - hops + 1 {
		p := gain * gain * (powers[i] + powers[i+1] + powers[i+2] + powers[i+3]) / hops
		if lufs(p) > gate {
			sum += p
			n++
		}
	}
	if n == 0 {
		return math.Inf(-1)
	}
	return lufs(sum / n)
}

func lufs(power float64) float64 { return -0.691 + 10*math.Log10(power) }

// level returns the factor that brings what was measured, to its end, to Loudness, or as near to it as TruePeak allows.
// The function says how high it peaks between samples, if that is above a limit.
func (m *meter) level(truePeak func(limit float64) float64) float64 {
	var sum float64
	for _, x := range m.powers {
		sum += x
	}
	if sum == 0 {
		return 1
	}
	// What the gates keep depends on the level, so go there in steps: the first as if there were no gates.
	gain := Decibels(Loudness - lufs(sum/float64(len(m.powers))))
	for range 4 {
		gain *= Decibels(Loudness - loudness(m.powers, gain))
	}
	limit := Decibels(TruePeak) / gain
	if float64(m.peak)*overshoot <= limit {
		return gain
	}
	if peak := truePeak(limit); peak > limit {
		gain *= limit / peak
	}
	return gain
}

// Decibels returns the factor that dB stand for.
func Decibels(db float64) float64 { return math.Pow(10, db/20) }
