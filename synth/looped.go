package synth

import (
	"errors"
	"fmt"
	"time"

	"sparetone/theory"
)

// endless is how long a loop is said to be, in samples: a year of them.
const endless = 365 * 24 * 3600 * int(SampleRate)

// looped is a score that goes round and round as it is heard. It begins with what is played once; then each round is as long
// as the others, to the sample that its plucks come nearest to, and what rings at the end of one rings on in the next.
type looped struct {
	stream
	before time.Duration // until the first round
	round  []Pluck       // in time
	period time.Duration
	rounds int // of which the plucks have been handed on
}

// roundsMeasured are the rounds by which the loudness of a loop is measured: in the second the first still rings.
const roundsMeasured = 2

// RenderLoop plays a score once, and then another round and round without end, its Length apart. It is as loud as Render would
// make the first rounds. The errors are those of Render.
func RenderLoop(once, round Score, v Voice, opt Options) (*Sound, error) {
	if round.Length <= 0 {
		return nil, fmt.Errorf("a round is %v long: it must last longer than nothing", round.Length)
	}
	for _, p := range once.Plucks {
		if p.At >= once.Length {
			return nil, errors.New("what is played once must end before the first round begins")
		}
	}
	first := once
	for range roundsMeasured {
		first = RingOn(first, round)
	}
	measured, err := Render(first, v, opt)
	if err != nil {
		return nil, err
	}
	a4 := opt.A4
	if a4 == 0 {
		a4 = theory.StandardA4
	}
	l := &looped{before: once.Length, round: round.InTime(), period: round.Length}
	l.score, l.voice, l.a4 = once, v, a4
	l.seek(0)
	return &Sound{source: l, length: endless, gain: measured.gain, voice: v}, nil
}

func (l *looped) next(most int) []float32 {
	for l.startOf(l.rounds) <= l.playing.at()+Chunk+before {
		for _, p := range l.round {
			p.At += l.before + time.Duration(l.rounds)*l.period
			l.playing.plucks = append(l.playing.plucks, p)
		}
		l.rounds++
	}
	return l.stream.next(most)
}

// startOf returns the sample at which a round begins, counted from 0.
func (l *looped) startOf(round int) int {
	return SampleRate.N(l.before + time.Duration(round)*l.period)
}

func (l *looped) seek(at int) {
	l.rounds = 0
	l.playing, l.left = newPlaying(l.score, l.voice, l.a4), nil
	l.playing.length = endless
	for at > 0 {
		at -= len(l.next(at))
	}
}
