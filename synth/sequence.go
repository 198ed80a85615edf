package synth

import (
	"time"

	"github.com/gopxl/beep/v2"
)

// Part is one sound of a Sequence.
type Part struct {
	Sound func() (*Sound, error) // makes it, when its turn comes; nil for none
	Rest  time.Duration          // silence after it
}

// Sequence is sounds one after another, each made when its turn comes, so that it holds no more than one. It ends with the first error,
// which its Err returns.
func Sequence(parts []Part) beep.Streamer { return &sequence{left: parts} }

type sequence struct {
	left   []Part
	sound  *Sound // that sounds; nil before the first
	silent int    // samples of silence that come before the next
	err    error
}

// Stream copies the next samples; see beep.Streamer.
func (s *sequence) Stream(samples [][2]float64) (n int, ok bool) {
	for n < len(samples) && s.err == nil {
		if s.sound != nil {
			if more, ok := s.sound.Stream(samples[n:]); ok {
				n += more
				continue
			}
			s.sound = nil
		}
		if some := min(s.silent, len(samples)-n); some > 0 {
			clear(samples[n : n+some])
			n, s.silent = n+some, s.silent-some
			continue
		}
		if len(s.left) == 0 {
			break
		}
		if s.left[0].Sound != nil {
			s.sound, s.err = s.left[0].Sound()
		}
		s.silent = SampleRate.N(s.left[0].Rest)
		s.left = s.left[1:]
	}
	return n, n > 0
}

// Err returns the error of the sound that could not be made.
func (s *sequence) Err() error { return s.err }
