package synth

// silent is how far the fundamental has died away when a string is given up: e^−30 is −260 dB.
const silent = 30

// moveOver is how many samples a hand takes to move a string to another stop: 3 ms.
var moveOver = float64(SampleRate.N(3e6))

// vibrating is one string of an instrument from a pluck on, a Tone.
type vibrating struct {
	instrument *instrument
	number     int // of the string in its course, from 0
	start, end int // samples
	strength   float64
	stops      []stop    // where it is stopped in turn: one, and one more for each slur
	now        int       // which of them
	pitch      float64   // Hz, of the string or the course it is in; 0 if it was slurred
	gain       float64   // that it was plucked with besides its strength
	line       []float64 // what has passed the bridge: enough to look back a period, then a chunk; nil until it sounds
}

// stop is a place where a string is stopped, from sample at on.
type stop struct {
	at    int
	trip  roundTrip
	in    []float64        // what plucking or slurring there sends into the string; nil until it sounds
	pluck func() []float64 // makes it
}

// newVibrating returns a string of an instrument that is plucked at sample at. It is the given one, from 0, of a course
// that sounds f Hz, or a single one.
func (v *instrument) newVibrating(f float64, number, at int, strength float64, pluck func() []float64) *vibrating {
	own := v.pitch(f, number)
	trip := newRoundTrip(own, func(partial float64) float64 { return v.decay(partial, own) })
	return &vibrating{
		instrument: v, number: number,
		start: at, end: at + int(silent/v.decay(own, own)*float64(SampleRate)), strength: strength,
		stops: []stop{{at: at, trip: trip, pluck: pluck}},
		pitch: f, gain: 1,
	}
}

// Span returns the samples from which and up to which the string sounds.
func (s *vibrating) Span() (start, end int) { return s.start, s.end }

// Still stops the string at a sample.
func (s *vibrating) Still(at int) { s.end = min(s.end, at) }

// Slur moves the stop of the string. A finger that hammers on or pulls off also plucks a little.
func (s *vibrating) Slur(f float64, at int, strength float64) {
	v := s.instrument
	own := v.pitch(f, s.number)
	trip := newRoundTrip(own, func(partial float64) float64 { return v.decay(partial, own) })
	s.stops = append(s.stops, stop{at: at, trip: trip, pluck: v.plucked(f, strength*slurred, 1)})
	s.pitch = 0
	if s.line != nil {
		s.reach(trip)
	}
}

// slurred is how strong a slur is against a pluck of the same strength: common practice, no source.
const slurred = 0.35

// reach makes the line long enough for a round trip.
func (s *vibrating) reach(trip roundTrip) {
	if more := trip.delay + taps - 1 + Chunk - len(s.line); more > 0 {
		s.line = append(make([]float64, more), s.line...)
	}
}

// Sound runs the string and adds what passes the bridge to mix. The string is only ever run for stretches in which it
// stays at one stop.
func (s *vibrating) Sound(mix []float64, at int) {
	if s.line == nil {
		for _, stop := range s.stops {
			s.reach(stop.trip)
		}
	}
	for len(mix) > 0 {
		n := len(mix)
		if s.now+1 < len(s.stops) {
			n = min(n, s.stops[s.now+1].at-at)
		}
		if n <= 0 {
			s.now++
			continue
		}
		s.ring(mix[:n], at)
		mix, at = mix[n:], at+n
	}
}

// ring runs the string, which stays at one stop, for len(mix) samples from sample at of the score.
func (s *vibrating) ring(mix []float64, at int) {
	copy(s.line, s.line[len(mix):])
	made := s.line[len(s.line)-len(mix):]
	clear(made)
	here := &s.stops[s.now]
	if here.in == nil {
		here.in = here.pluck()
	}
	since := at - here.at
	if since < len(here.in) {
		copy(made, here.in[since:])
	}
	loss := s.instrument.early.loss(float64(at-s.start)/float64(SampleRate), here.trip.period()/float64(SampleRate))
	if s.now > 0 && float64(since) < moveOver {
		s.move(mix, at, loss)
		return
	}
	here.trip.run(s.line, mix, loss)
}

// move is run while a finger moves the stop: what comes back comes less and less from the old stop.
func (s *vibrating) move(mix []float64, at int, loss float64) {
	old, here := &s.stops[s.now-1], &s.stops[s.now]
	first := len(s.line) - len(mix)
	for i := range mix {
		t := min(1, float64(at+i-here.at)/moveOver)
		y := s.line[first+i]
		y += loss * ((1-t)*old.trip.back(s.line, first+i) + t*here.trip.back(s.line, first+i))
		s.line[first+i] = y
		mix[i] += y
	}
}
