package synth

import "time"

// block is how many samples a string is run for at a time.
const block = 256

// playing is a score being played: its strings, each begun when its pluck comes.
type playing struct {
	length  int // samples
	at      int
	strings []*ringingString
}

// ringingString is one pluck's string from its pluck to its end.
type ringingString struct {
	ringing
	trip roundTrip
	line []float64 // what has passed the bridge: enough to look back a period, then a block
	in   []float64 // what the pluck sends into the string
}

// fadeOut is how long a hand takes to still a string, in samples: 12 ms.
var fadeOut = SampleRate.N(12 * time.Millisecond)

func newPlaying(score Score, v *Voice, a4 float64) *playing {
	p := &playing{length: SampleRate.N(score.Length)}
	last := map[int]*ringingString{}
	for _, k := range score.inTime() {
		f := k.Pitch.Frequency(a4)
		trip := newRoundTrip(f, v.decay)
		s := &ringingString{
			ringing: ringing{k.String, SampleRate.N(k.At), p.length, k.Strength, v.decay(f) / float64(SampleRate)},
			trip:    trip,
			line:    make([]float64, trip.delay+taps-1+block),
			in:      pluckPulse(f, k.Strength),
		}
		if k.Damp > 0 {
			s.end = min(s.end, s.start+SampleRate.N(k.Damp))
		}
		if before := last[k.String]; before != nil {
			before.end = min(before.end, s.start)
		}
		last[k.String] = s
		p.strings = append(p.strings, s)
	}
	return p
}

// pluckPulse returns what a pluck sends into the string.
func pluckPulse(f, strength float64) []float64 {
	period := float64(SampleRate) / f
	in := make([]float64, int(period)+40)
	d := int(period / 5)
	for i := range 32 {
		in[i] += strength
		in[i+d] -= strength
	}
	return in
}

// next adds the next samples to mix, which it clears first. mix is at most a block long.
func (p *playing) next(mix []float64) {
	clear(mix)
	for _, s := range p.strings {
		from, to := max(s.start-p.at, 0), min(s.end+fadeOut-p.at, len(mix))
		if from < to {
			s.ring(mix[from:to], p.at+from)
		}
	}
	p.at += len(mix)
}

// ring runs the string for len(mix) samples from sample at of the score.
func (s *ringingString) ring(mix []float64, at int) {
	copy(s.line, s.line[len(mix):])
	made := s.line[len(s.line)-len(mix):]
	clear(made)
	if since := at - s.start; since < len(s.in) {
		copy(made, s.in[since:])
	}
	if at+len(mix) <= s.end {
		s.trip.run(s.line, mix, 1)
		return
	}
	var faded [block]float64
	s.trip.run(s.line, faded[:len(mix)], 1)
	for i := range mix {
		gain := 1 - float64(max(0, at+i-s.end))/float64(fadeOut)
		mix[i] += gain * faded[i]
	}
}
