package synth

import (
	"errors"
	"time"

	"sparetone/theory"
)

// Stilled is a string that a hand stills at a time from the start of a score: what it was plucked for before that score began.
type Stilled struct {
	String int
	At     time.Duration
}

// RenderLive plays scores one after another, each for its Length, that are asked for only shortly before they begin: so what comes next
// may be changed while it plays, and takes effect where the next score begins. What rings at the end of one rings on in the next, until its
// string is plucked again or stilled. The n-th score, counted from 0, is asked for on the goroutine that plays, so it must come at
// once; one that lasts no time ends the sound.
//
// Samples are scores as they will come, by which the loudness is measured. Where something louder comes, all is played more softly from
// there on, so that no sample is above TruePeak. The errors are those of Render.
func RenderLive(next func(n int) (Score, []Stilled), v Voice, opt Options, samples ...Score) (*Sound, error) {
	level := 0.0
	for _, s := range samples {
		if len(s.Plucks) == 0 {
			continue
		}
		measured, err := Render(s, v, opt)
		if err != nil {
			return nil, err
		}
		if level == 0 || measured.gain < level {
			level = measured.gain
		}
	}
	if level == 0 {
		return nil, errors.New("there is nothing to play: no score by which the loudness is measured has a pluck")
	}
	a4 := opt.A4
	if a4 == 0 {
		a4 = theory.StandardA4
	}
	l := &live{asked: next, most: Decibels(TruePeak) / level}
	l.voice, l.a4 = v, a4
	l.seek(0)
	return &Sound{source: l, length: endless, gain: level, voice: v}, nil
}

// live is what plays scores that are asked for as they come.
type live struct {
	stream
	asked  func(n int) (Score, []Stilled)
	scores int           // that were asked for
	ends   time.Duration // of the last of them, from the beginning of all
	most   float64       // the highest sample, before the gain, that is played as it is
	soft   float32       // what samples are multiplied by, 1 as long as none was too high
	over   bool          // the last score has been asked for
}

func (l *live) next(most int) []float32 {
	for !l.over && SampleRate.N(l.ends) <= l.playing.at()+Chunk+before {
		l.take()
	}
	if len(l.left) == 0 {
		l.left = l.soften(l.playing.next(l.made[:]))
	}
	part := l.left[:min(most, len(l.left))]
	l.left = l.left[len(part):]
	return part
}

// take asks for the next score, and sets its plucks behind those that are still to come.
func (l *live) take() {
	s, stills := l.asked(l.scores)
	l.scores++
	if s.Length <= 0 {
		l.over = true
		l.playing.length = max(l.playing.at(), SampleRate.N(l.ends))
		return
	}
	for _, still := range stills {
		l.still(still.String, l.ends+still.At)
	}
	for _, p := range s.InTime() {
		p.At += l.ends
		l.playing.plucks = append(l.playing.plucks, p)
	}
	l.ends += s.Length
}

// still stills a string at a time, of what it was plucked for so far or is about to be.
func (l *live) still(number int, at time.Duration) {
	for i := len(l.playing.plucks) - 1; i >= 0; i-- {
		if p := &l.playing.plucks[i]; p.String == number {
			if left := at - p.At; left > 0 && (p.Damp == 0 || p.Damp > left) {
				p.Damp = left
			}
			return
		}
	}
	if last, there := l.playing.last[number]; there {
		l.playing.still(last, SampleRate.N(at))
	}
}

// soften plays more softly from here on where a sample would be too high.
func (l *live) soften(samples []float32) []float32 {
	peak := float32(0)
	for _, x := range samples {
		peak = max(peak, x, -x)
	}
	if high := float64(peak * l.soft); high > l.most {
		l.soft *= float32(l.most / high)
	}
	if l.soft < 1 {
		for i := range samples {
			samples[i] *= l.soft
		}
	}
	return samples
}

// seek goes back to the beginning; what was asked for is asked for anew. It goes nowhere else, for what would come is not known.
func (l *live) seek(int) {
	l.scores, l.ends, l.over, l.soft = 0, 0, false, 1
	l.playing, l.left = newPlaying(Score{}, l.voice, l.a4), nil
	l.playing.length = endless
}
