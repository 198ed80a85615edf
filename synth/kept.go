package synth

import "time"

// LongestKept is the length of the longest score whose sound is kept in memory, 6 MB of it.
const LongestKept = 30 * time.Second

// memory is a sound that was played before.
type memory struct {
	samples []float32
	at      int
}

func (m *memory) next(most int) []float32 {
	part := m.samples[m.at:][:min(most, len(m.samples)-m.at)]
	m.at += len(part)
	return part
}

func (m *memory) seek(at int) { m.at = at }

// kept plays a whole score into memory.
func kept(score Score, v Voice, a4 float64) *Sound {
	p := newPlaying(score, v, a4)
	samples := make([]float32, p.length)
	var m meter
	p.perform(samples, &m)
	return &Sound{
		source: &memory{samples: samples}, length: p.length, gain: m.level(func(limit float64) float64 { return truePeak(samples, limit) }),
		voice: v, ringing: p.ringing,
	}
}
