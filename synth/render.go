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
	source  source
	length  int     // samples
	gain    float64 // what brings them to the loudness asked for
	at      int     // the next to be streamed
	voice   Voice
	ringing []ringing
	rest    *Partial // how all strings come to rest for the eye; nil until it is asked for
}

// source is where the samples of a sound come from, as the strings make them.
type source interface {
	// next returns some of the samples that come next, at most so many and at least one. They stay until it is called again.
	next(most int) []float32
	// seek goes to a sample.
	seek(at int)
}

// Render plays a score on a voice. Every sound comes out equally loud: Loudness, by ITU-R BS.1770-5,
// lowered by Options.Gain. The error says in a line what in the score or the options cannot be played.
//
// A score up to LongestKept is played at once, into memory. A longer one is played once to measure how loud it is and how
// high it peaks, and then again, alike to the sample, as it is heard.
func Render(score Score, v Voice, opt Options) (*Sound, error) {
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
	played := kept
	if score.Length > LongestKept {
		played = streamed
	}
	s := played(score, v, opt.A4)
	s.gain *= Decibels(opt.Gain)
	return s, nil
}

// Stream copies the next samples; see beep.Streamer.
func (s *Sound) Stream(samples [][2]float64) (n int, ok bool) {
	if s.at == s.length {
		return 0, false
	}
	samples = samples[:min(len(samples), s.length-s.at)]
	for n < len(samples) {
		from := s.source.next(len(samples) - n)
		if len(from) == 0 {
			break // what plays live has ended
		}
		for i, x := range from {
			v := s.gain * float64(x)
			samples[n+i] = [2]float64{v, v}
		}
		n += len(from)
	}
	s.at += n
	return n, n > 0 || len(samples) == 0
}

// Err returns nil: a checked score cannot fail.
func (s *Sound) Err() error { return nil }

// Len returns how many samples the sound has.
func (s *Sound) Len() int { return s.length }

// Position returns how many samples have been streamed.
func (s *Sound) Position() int { return s.at }

// Seek goes to sample p. In a score longer than LongestKept all that lies before is played again, some hundred times as
// fast as it sounds.
func (s *Sound) Seek(p int) error {
	if p < 0 || p > s.length {
		return fmt.Errorf("sample %d: the sound has %d", p, s.length)
	}
	s.source.seek(p)
	s.at = p
	return nil
}

// Duration returns how long the sound is.
func (s *Sound) Duration() time.Duration { return SampleRate.D(s.length) }

// Levels returns how strongly each string sounds at a time from the start, by string number: above 0
// up to 1 while it sounds. Strings that are still are not in it. All come to rest at one rate, for a high
// note dies sooner, and that would tell notes apart by eye.
func (s *Sound) Levels(at time.Duration) map[int]float64 {
	if s.rest == nil {
		s.rest = s.meanRest()
	}
	levels := map[int]float64{}
	n := SampleRate.N(at)
	for _, r := range s.ringing {
		if r.start <= n && n < r.end {
			t := SampleRate.D(n - r.start).Seconds()
			levels[r.string] = max(levels[r.string], r.strength*s.rest.left(t)*math.Exp(-s.rest.Decay*t))
		}
	}
	return levels
}

// meanRest returns the lowest partial of all tones on average.
func (s *Sound) meanRest() *Partial {
	lowest := map[float64]Partial{} // by pitch
	var mean Partial
	for _, r := range s.ringing {
		p, ok := lowest[r.pitch]
		if !ok {
			if all := s.voice.Partials(r.pitch, r.strength); len(all) > 0 {
				p = all[0]
			}
			lowest[r.pitch] = p
		}
		mean.Decay += p.Decay / float64(len(s.ringing))
		mean.Early, mean.EarlyDecay = max(mean.Early, p.Early), max(mean.EarlyDecay, p.EarlyDecay)
	}
	return &mean
}
