package synth

// stream is a score that is played as it is heard. What it holds grows with the plucks of the score, not with its length.
type stream struct {
	score Score
	voice Voice
	a4    float64 // Hz

	playing *playing
	made    [Chunk]float32
	left    []float32 // of what was made, what is still to be taken
}

// streamed plays a score once to measure it, and returns a sound that plays it again as it is heard.
func streamed(score Score, v Voice, a4 float64) *Sound {
	s := &stream{score: score, voice: v, a4: a4}
	s.seek(0)
	p := s.playing
	var m meter
	var peak peakMeter
	for n := p.length; n > 0; {
		part := s.next(n)
		m.add(part)
		peak.add(part)
		n -= len(part)
	}
	m.end()
	s.seek(0)
	return &Sound{
		source: s, length: p.length, gain: m.level(func(float64) float64 { return peak.top }),
		voice: v, ringing: p.ringing,
	}
}

func (s *stream) next(most int) []float32 {
	if len(s.left) == 0 {
		s.left = s.playing.next(s.made[:])
	}
	part := s.left[:min(most, len(s.left))]
	s.left = s.left[len(part):]
	return part
}

// seek goes to a sample by playing all that lies before it.
func (s *stream) seek(at int) {
	s.playing, s.left = newPlaying(s.score, s.voice, s.a4), nil
	for at > 0 {
		at -= len(s.next(at))
	}
}

// at returns how many samples have been made.
func (p *playing) at() int { return p.halves[0].at }

// next makes the next samples of the score, at most a chunk of them.
func (p *playing) next(samples []float32) []float32 {
	here, there := &p.halves[0], &p.halves[1]
	samples = samples[:min(Chunk, len(samples), p.length-here.at)]
	p.pluckBefore(here.at + len(samples) + before)
	here.next(here.mix[:len(samples)])
	there.next(there.mix[:len(samples)])
	for i := range samples {
		samples[i] = float32(here.mix[i] + there.mix[i])
	}
	return samples
}
