package hear

import (
	"math"
	"slices"
)

// Level is how loud it is, in dBFS: 0 is a square wave as loud as can be, -120 is silence.
type Level struct {
	Now     float64 // over the last tenth of a second
	Peak    float64 // the highest sample of that time
	Floor   float64 // the softest tenth of a second of late: the noise
	Clipped bool    // the sound is cut off at its loudest
	Zero    bool    // nothing but zeros came for a second: a microphone that is refused or switched off
}

// meter measures levels in sound that is fed.
type meter struct {
	block  int
	sum    float64
	peak   float64
	n      int
	powers []float64 // of late, the newest last
	last   float64   // the peak of the last block
	zeros  int
	second int
}

func newMeter(rate float64) meter {
	return meter{block: int(blockTime * rate), second: int(rate)}
}

func (m *meter) feed(samples []float64) {
	for _, x := range samples {
		if x == 0 {
			m.zeros++
		} else {
			m.zeros = 0
		}
		m.sum += x * x
		m.peak = max(m.peak, math.Abs(x))
		if m.n++; m.n == m.block {
			m.powers = append(m.powers, m.sum/float64(m.n))
			if len(m.powers) > int(floorTime/blockTime) {
				m.powers = m.powers[1:]
			}
			m.last, m.sum, m.peak, m.n = m.peak, 0, 0, 0
		}
	}
}

// floor returns the power of the softest block of late, and whether there were enough to tell.
func (m *meter) floor() (power float64, known bool) {
	if len(m.powers) < 3 {
		return 0, false
	}
	return slices.Min(m.powers), true
}

// now returns the level of the last block.
func (m *meter) now() Level {
	l := Level{Now: -120, Peak: -120, Floor: -120, Zero: m.zeros >= m.second}
	if n := len(m.powers); n > 0 {
		floor := slices.Min(m.powers)
		l.Now, l.Floor, l.Peak = dBFS(m.powers[n-1]), dBFS(floor), dBFS(m.last*m.last)
		l.Clipped = m.last >= 0.999
	}
	return l
}

func dBFS(power float64) float64 { return max(-120, 10*math.Log10(power+1e-12)) }
