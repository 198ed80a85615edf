package synth

import (
	"math"
	"slices"
)

var (
	fadeOut = SampleRate.N(12e6) // samples a hand takes to still a string: 12 ms
	before  = SampleRate.N(20e6) // how much sooner than its pluck a tone may start: 20 ms
)

// playing is a score being played. What it sets sounding is dealt out to two halves, which can be played apart from each
// other; what is heard is the sum of both.
type playing struct {
	a4        float64 // Hz
	length    int     // samples in all
	plucks    []Pluck // that are still to come, in time
	performer Performer
	last      map[int]sounded // by string number: what it was plucked for last
	halves    [2]half
	ringing   []ringing // of every tone so far
}

// half is some of the tones of a score, played together.
type half struct {
	at    int     // samples made so far
	load  float64 // samples that its tones last in all, as far as is known
	tones []Tone  // those that have not ended
	mix   [Chunk]float64
	room  [Chunk]float64 // for a tone that fades
}

// sounded is what a pluck has set sounding: tones, and where what is known of each stands in ringing.
type sounded struct {
	tones []Tone
	first int
}

// ringing is what can be said of a tone without listening.
type ringing struct {
	string     int
	start, end int     // samples
	pitch      float64 // Hz, at its start
	strength   float64 // at its start, 0 to 1
}

// meterCost is what measuring costs a sample, in samples of a string. The first half is measured with it.
const meterCost = 1.5

// newPlaying returns a checked score, ready to be played for A4 at a4 Hz.
func newPlaying(score Score, v Voice, a4 float64) *playing {
	p := &playing{
		a4: a4, length: SampleRate.N(score.Length), plucks: score.InTime(),
		performer: v.Ready(), last: map[int]sounded{},
	}
	p.halves[0].load = meterCost * float64(p.length)
	return p
}

// pluckBefore sets sounding what is plucked before a sample.
func (p *playing) pluckBefore(sample int) {
	for len(p.plucks) > 0 {
		at := SampleRate.N(p.plucks[0].At)
		if at >= sample {
			return
		}
		p.pluck(p.plucks[0], at)
		p.plucks = p.plucks[1:]
	}
}

func (p *playing) pluck(k Pluck, at int) {
	f, last := k.Pitch.Frequency(p.a4), p.last[k.String]
	if k.Slur && last.rings(at) {
		for _, tone := range last.tones {
			tone.Slur(f, at, k.Strength)
		}
		if k.Damp > 0 {
			p.still(last, at+SampleRate.N(k.Damp))
		}
		return
	}
	p.still(last, at)
	now := sounded{p.performer.Pluck(f, at, k.Strength), len(p.ringing)}
	for _, tone := range now.tones {
		tone.Still(p.length - fadeOut)
		start, end := tone.Span()
		if k.Damp > 0 {
			tone.Still(start + SampleRate.N(k.Damp))
			_, end = tone.Span()
		}
		p.ringing = append(p.ringing, ringing{k.String, start, end, f, k.Strength})
		p.deal(tone)
	}
	p.last[k.String] = now
}

// still ends what a string was plucked for.
func (p *playing) still(s sounded, at int) {
	for i, tone := range s.tones {
		tone.Still(at)
		_, p.ringing[s.first+i].end = tone.Span()
	}
}

// rings reports whether a string still sounds at a sample.
func (s sounded) rings(at int) bool {
	if len(s.tones) == 0 {
		return false
	}
	_, end := s.tones[0].Span()
	return end > at
}

// deal gives a tone to the half that has less to do.
func (p *playing) deal(tone Tone) {
	start, end := tone.Span()
	to := &p.halves[0]
	if p.halves[1].load < to.load {
		to = &p.halves[1]
	}
	to.tones = append(to.tones, tone)
	to.load += float64(min(end, p.length) - start)
}

// fill makes the next samples, any number of them.
func (h *half) fill(mix []float64) {
	for len(mix) > 0 {
		n := min(Chunk, len(mix))
		h.next(mix[:n])
		mix = mix[n:]
	}
}

// next makes the next samples; mix is at most a chunk long.
func (h *half) next(mix []float64) {
	clear(mix)
	ended := false
	for _, tone := range h.tones {
		start, end := tone.Span()
		from, to := max(start-h.at, 0), min(end+fadeOut-h.at, len(mix))
		if from < to {
			h.sound(tone, mix[from:to], h.at+from, end)
		}
		ended = ended || end+fadeOut <= h.at+len(mix)
	}
	h.at += len(mix)
	if ended {
		h.tones = slices.DeleteFunc(h.tones, func(tone Tone) bool {
			_, end := tone.Span()
			return end+fadeOut <= h.at
		})
	}
}

// sound adds what a tone sounds from sample at on, fading from sample end on.
func (h *half) sound(tone Tone, mix []float64, at, end int) {
	if at+len(mix) <= end {
		tone.Sound(mix, at)
		return
	}
	heard := h.room[:len(mix)]
	clear(heard)
	tone.Sound(heard, at)
	for i, x := range heard {
		mix[i] += x * fade(at+i-end)
	}
}

// fade returns what is left of a string's sound so many samples after a hand has begun to still it.
func fade(samples int) float64 {
	switch t := float64(samples) / float64(fadeOut); {
	case t <= 0:
		return 1
	case t >= 1:
		return 0
	default:
		return (1 + math.Cos(math.Pi*t)) / 2
	}
}
