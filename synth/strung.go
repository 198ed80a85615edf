package synth

import "slices"

// strung plays a score on the strings of an instrument.
type strung struct {
	*instrument
	ringing [][]*vibrating // strings or courses that go on ringing for long enough to make a pair
}

// Ready returns the instrument with all its strings still.
func (v *instrument) Ready() Performer { return &strung{instrument: v} }

// Pluck plucks a string, or the strings of a course as one.
func (p *strung) Pluck(f float64, at int, strength float64) []Tone {
	p.ringing = slices.DeleteFunc(p.ringing, func(course []*vibrating) bool {
		return course[0].end-at < SampleRate.N(together)
	})
	at, gain := p.pair(p.ringing, f, at, strength)
	pluck := p.plucked(f, strength, gain)
	var course []*vibrating
	var tones []Tone
	for i := range p.stringsInCourse() {
		s := p.newVibrating(f, i, at, strength, pluck)
		s.gain = gain
		course, tones = append(course, s), append(tones, s)
	}
	p.ringing = append(p.ringing, course)
	return tones
}
