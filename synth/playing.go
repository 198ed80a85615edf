package synth

import "math"

// block is how many samples a string is run for at a time.
const block = 256

// silent is how far the fundamental has died away when a string is given up: e^−30 is −260 dB.
const silent = 30

var (
	fadeOut  = float64(SampleRate.N(12e6)) // samples a hand takes to still a string: 12 ms
	moveOver = float64(SampleRate.N(3e6))  // and to move it to another stop: 3 ms
)

// playing is a score being played. It is a set of strings, each of which sounds from a pluck until it is
// stopped, plucked again or silent.
type playing struct {
	at      int // samples made so far
	length  int // samples in all
	strings []*vibrating
}

// vibrating is one string from a pluck on.
type vibrating struct {
	ringing
	early early
	stops []stop    // where it is stopped in turn: one, and one more for each slur
	now   int       // which of them
	pitch float64   // Hz, of the string or the course it is in; 0 if it was slurred
	gain  float64   // that it was plucked with besides its strength
	line  []float64 // what has passed the bridge: enough to look back a period, then a block
}

// stop is a place where a string is stopped, from sample at on.
type stop struct {
	at    int
	trip  roundTrip
	in    []float64        // what plucking or slurring there sends into the string; nil until it sounds
	pluck func() []float64 // makes it
}

// ringing is what can be said of a string's sound without listening.
type ringing struct {
	string     int
	start, end int     // samples
	strength   float64 // at its start, 0 to 1
	decay      float64 // of the fundamental, 1/s
}

// newPlaying returns a checked score, ready to be played for A4 at a4 Hz.
func newPlaying(score Score, v *Voice, a4 float64) *playing {
	p := &playing{length: SampleRate.N(score.Length)}
	last := map[int][]*vibrating{} // by string number: one, or two of a course
	var plucked [][]*vibrating     // all so far, strings or courses
	for _, k := range score.inTime() {
		at := SampleRate.N(k.At)
		f := k.Pitch.Frequency(a4)
		if k.Slur && len(last[k.String]) > 0 && last[k.String][0].end > at {
			pluck := v.plucked(f, k.Strength*slurred, 1)
			for i, s := range last[k.String] {
				s.slur(v, v.pitch(f, i), at, pluck)
			}
			continue
		}
		for _, s := range last[k.String] {
			s.end = min(s.end, at)
		}
		last[k.String] = nil
		at, gain := v.pair(plucked, f, at, k.Strength)
		pluck := v.plucked(f, k.Strength, gain)
		for i := range v.stringsInCourse() {
			s := newVibrating(v, v.pitch(f, i), at, k.Strength, pluck)
			s.string, s.pitch, s.gain = k.String, f, gain
			s.end = min(s.end, p.length-int(fadeOut))
			if k.Damp > 0 {
				s.end = min(s.end, at+SampleRate.N(k.Damp))
			}
			last[k.String] = append(last[k.String], s)
			p.strings = append(p.strings, s)
		}
		plucked = append(plucked, last[k.String])
	}
	return p
}

func newVibrating(v *Voice, f float64, at int, strength float64, pluck func() []float64) *vibrating {
	trip := newRoundTrip(f, func(partial float64) float64 { return v.decay(partial, f) })
	decay := v.decay(f, f)
	return &vibrating{
		ringing: ringing{
			start: at, end: at + int(silent/decay*float64(SampleRate)),
			strength: strength, decay: decay,
		},
		early: v.early,
		stops: []stop{{at: at, trip: trip, pluck: pluck}},
		line:  make([]float64, trip.delay+taps-1+block),
	}
}

// slur moves the stop of a sounding string. A finger that hammers on or pulls off also plucks a little.
func (s *vibrating) slur(v *Voice, f float64, at int, pluck func() []float64) {
	trip := newRoundTrip(f, func(partial float64) float64 { return v.decay(partial, f) })
	s.stops = append(s.stops, stop{at: at, trip: trip, pluck: pluck})
	s.pitch = 0
	if more := trip.delay + taps - 1 + block - len(s.line); more > 0 {
		s.line = append(make([]float64, more), s.line...)
	}
}

// slurred is how strong a slur is against a pluck of the same strength: common practice, no source.
const slurred = 0.35

// next makes the next samples of the score; mix is at most a block long.
func (p *playing) next(mix []float64) {
	clear(mix)
	for _, s := range p.strings {
		// A string is only ever run for stretches in which it stays at one stop.
		for from := max(s.start-p.at, 0); from < len(mix); {
			to := min(s.end+int(fadeOut)-p.at, len(mix))
			if s.now+1 < len(s.stops) {
				to = min(to, s.stops[s.now+1].at-p.at)
			}
			if from < to {
				s.ring(mix[from:to], p.at+from)
				from = to
			}
			if s.now+1 < len(s.stops) && s.stops[s.now+1].at-p.at <= from {
				s.now++
			} else if from >= to {
				break
			}
		}
	}
	p.at += len(mix)
}

// ring runs the string for len(mix) samples from sample at of the score and adds them to mix.
func (s *vibrating) ring(mix []float64, at int) {
	copy(s.line, s.line[len(mix):])
	made := s.line[len(s.line)-len(mix):]
	clear(made)
	here := &s.stops[s.now]
	if here.in == nil {
		here.in = here.pluck()
	}
	if since := at - here.at; since < len(here.in) {
		copy(made, here.in[since:])
	}
	loss := s.early.loss(float64(at-s.start)/float64(SampleRate), here.trip.period()/float64(SampleRate))

	fading, moving := at+len(mix) > s.end, s.now > 0 && float64(at-here.at) < moveOver
	if !fading && !moving {
		here.trip.run(s.line, mix, loss)
		return
	}
	var out [block]float64
	heard := out[:len(mix)]
	if moving {
		s.move(heard, at, loss)
	} else {
		here.trip.run(s.line, heard, loss)
	}
	for i, x := range heard {
		mix[i] += x * fade(at+i-s.end)
	}
}

// move is run while a finger moves the stop: what comes back comes less and less from the old stop.
func (s *vibrating) move(heard []float64, at int, loss float64) {
	old, here := &s.stops[s.now-1], &s.stops[s.now]
	first := len(s.line) - len(heard)
	for i := range heard {
		t := min(1, float64(at+i-here.at)/moveOver)
		y := s.line[first+i]
		y += loss * ((1-t)*old.trip.back(s.line, first+i) + t*here.trip.back(s.line, first+i))
		s.line[first+i], heard[i] = y, y
	}
}

// fade returns what is left of a string's sound so many samples after a hand has begun to still it.
func fade(samples int) float64 {
	switch t := float64(samples) / fadeOut; {
	case t <= 0:
		return 1
	case t >= 1:
		return 0
	default:
		return (1 + math.Cos(math.Pi*t)) / 2
	}
}
