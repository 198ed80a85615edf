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

// powers returns the K-weighted mean square of each 100 ms of a sound that both channels have alike,
// summed over them. A last part shorter than that does not count, unless all is shorter than a block:
// then silence follows it.
func powers(samples []float32) []float64 {
	mean := make([]float64, 0, len(samples)/hop+hops)
	// Direct form I, written so that what waits for the last output is one product and one difference.
	var x1, x2, y1, y2, z1, z2 float64
	for len(samples) > 0 && (len(samples) >= hop || len(mean) < hops) {
		var sum float64
		part := samples[:min(hop, len(samples))]
		samples = samples[len(part):]
		for _, s := range part {
			x := float64(s)
			y := kShelf.b0*x + kShelf.b1*x1 + kShelf.b2*x2 - kShelf.a2*y2 - kShelf.a1*y1
			z := y - 2*y1 + y2 - kHigh.a2*z2 - kHigh.a1*z1
			sum += z * z
			x1, x2, y1, y2, z1, z2 = x, x1, y, y1, z, z1
		}
		mean = append(mean, 2*sum/hop)
	}
	for len(mean) < hops {
		mean = append(mean, 0)
	}
	return mean
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

// level returns the factor that brings samples to Loudness, or as near to it as TruePeak allows.
func level(samples []float32) float64 {
	p := powers(samples)
	var sum float64
	for _, x := range p {
		sum += x
	}
	if sum == 0 {
		return 1
	}
	// What the gates keep depends on the level, so go there in steps: the first as if there were no gates.
	gain := decibels(Loudness - lufs(sum/float64(len(p))))
	for range 4 {
		gain *= decibels(Loudness - loudness(p, gain))
	}
	limit := decibels(TruePeak) / gain
	if peak := truePeak(samples, limit); peak > limit {
		gain *= limit / peak
	}
	return gain
}

// decibels returns the factor that dB stand for.
func decibels(db float64) float64 { return math.Pow(10, db/20) }
