package synth

import (
	"errors"
	"fmt"
	"math"
	"time"

	"sparetone/theory"
)

// Options is how a score is rendered. Its zero value is A4 at 440 Hz and full loudness.
type Options struct {
	A4   float64 // Hz, 415 to 466; 0 is 440
	Gain float64 // dB, 0 or below: how much softer than Loudness
}

// The range of A4, in Hz: from the baroque pitch that is common today to the highest pitch orchestras
// have tuned to. Common practice, no source.
const (
	LowestA4  = 415.0
	HighestA4 = 466.0
)

// Sound is a score made audible: a beep.StreamSeeker at SampleRate, both channels alike. It may be
// rewound with Seek and played again. It is not safe for use from two goroutines at once.
type Sound struct {
	samples []float32 // as the strings make them
	gain    float64   // what brings them to the loudness asked for
	at      int       // the next to be streamed
	strings []ringing
	early   early
	decay   float64 // of the strings' fundamentals, on average, in 1/s
}

// Render plays a score on a voice. Every sound comes out equally loud: Loudness, by ITU-R BS.1770-5,
// lowered by Options.Gain. The error says in a line what in the score or the options cannot be played.
func Render(score Score, v *Voice, opt Options) (*Sound, error) {
	if v == nil {
		return nil, errors.New("no voice to play the score with")
	}
	if opt.A4 == 0 {
		opt.A4 = theory.StandardA4
	}
	if !(opt.A4 >= LowestA4 && opt.A4 <= HighestA4) {
		return nil, fmt.Errorf("A4 at %v Hz: it must be %v to %v Hz", opt.A4, LowestA4, HighestA4)
	}
	if !(opt.Gain <= 0) {
		return nil, fmt.Errorf("a gain of %v dB: it must be 0 dB or below", opt.Gain)
	}
	if err := score.check(opt.A4); err != nil {
		return nil, err
	}
	p := newPlaying(score, v, opt.A4)
	s := &Sound{samples: make([]float32, p.length), early: v.early}
	var m meter
	p.perform(s.samples, &m)
	for _, v := range p.strings {
		s.strings = append(s.strings, v.ringing)
		s.decay += v.decay / float64(len(p.strings))
	}
	s.gain = m.level(s.samples) * decibels(opt.Gain)
	return s, nil
}

// Stream copies the next samples; see beep.Streamer.
func (s *Sound) Stream(samples [][2]float64) (n int, ok bool) {
	left := s.samples[s.at:]
	n = min(len(samples), len(left))
	for i, x := range left[:n] {
		v := s.gain * float64(x)
		samples[i] = [2]float64{v, v}
	}
	s.at += n
	return n, len(left) > 0
}

// Err returns nil: a rendered sound cannot fail.
func (s *Sound) Err() error { return nil }

// Len returns how many samples the sound has.
func (s *Sound) Len() int { return len(s.samples) }

// Position returns how many samples have been streamed.
func (s *Sound) Position() int { return s.at }

// Seek goes to sample p.
func (s *Sound) Seek(p int) error {
	if p < 0 || p > len(s.samples) {
		return fmt.Errorf("sample %d: the sound has %d", p, len(s.samples))
	}
	s.at = p
	return nil
}

// Duration returns how long the sound is.
func (s *Sound) Duration() time.Duration { return SampleRate.D(len(s.samples)) }

// Levels returns how strongly each string sounds at a time from the start, by string number: above 0
// up to 1 while it sounds. Strings that are still are not in it. All come to rest at one rate, for a high
// note dies sooner, and that would tell notes apart by eye.
func (s *Sound) Levels(at time.Duration) map[int]float64 {
	levels := map[int]float64{}
	n := SampleRate.N(at)
	for _, r := range s.strings {
		if r.start <= n && n < r.end {
			t := SampleRate.D(n - r.start).Seconds()
			levels[r.string] = max(levels[r.string], r.strength*s.early.left(t)*math.Exp(-s.decay*t))
		}
	}
	return levels
}
