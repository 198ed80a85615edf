package synth

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"time"

	"sparetone/theory"
)

// The limits of a score.
const (
	LowestPitch  = 27.5             // Hz, the lowest frequency a string is built for: A0
	HighestPitch = 4400.0           // Hz, the highest: above C8
	LongestScore = 30 * time.Minute // the longest score that is played: longer than a song
)

// Pluck is one string set sounding.
type Pluck struct {
	String   int           // the string's number; a string sounds one pitch at a time
	Pitch    theory.Pitch  // what it sounds
	At       time.Duration // when it is plucked, from the start of the score
	Strength float64       // how hard, above 0 and up to 1; harder is louder and brighter
	Damp     time.Duration // when the hand stops it, from the pluck on; 0 lets it ring until the string is plucked again
	Slur     bool          // while the string sounds, its stop changes: a hammer-on or pull-off
}

// Score is what is played: which string, which pitch, when and how hard.
type Score struct {
	Plucks []Pluck       // in any order
	Length time.Duration // until all is silent
}

// Strings returns the numbers of the strings in the order in which they are first plucked.
func (s Score) Strings() (numbers []int) {
	for _, p := range s.InTime() {
		if !slices.Contains(numbers, p.String) {
			numbers = append(numbers, p.String)
		}
	}
	return numbers
}

// Then returns scores played one after another with a gap of silence between them. What rings at the
// end of a score is stopped there; RingOn lets it ring.
func Then(gap time.Duration, scores ...Score) Score {
	var all Score
	for i, s := range scores {
		if i > 0 {
			all.Length += gap
		}
		for _, p := range s.Plucks {
			if left := s.Length - p.At; p.Damp == 0 || p.Damp > left {
				p.Damp = left
			}
			p.At += all.Length
			all.Plucks = append(all.Plucks, p)
		}
		all.Length += s.Length
	}
	return all
}

// RingOn returns scores played one after another, each for its length. What rings at the end of a score rings on
// over the next ones, until its string is plucked again or its Damp is over.
func RingOn(scores ...Score) Score {
	var all Score
	for _, s := range scores {
		for _, p := range s.Plucks {
			p.At += all.Length
			all.Plucks = append(all.Plucks, p)
		}
		all.Length += s.Length
	}
	return all
}

// Still returns the score with a hand that stills strings, by number, at a time: what each was last plucked for before
// then rings no longer.
func (s Score) Still(at time.Duration, strings ...int) Score {
	s.Plucks = slices.Clone(s.Plucks)
	for _, number := range strings {
		last := -1
		for i, p := range s.Plucks {
			if p.String == number && p.At < at && (last < 0 || p.At >= s.Plucks[last].At) {
				last = i
			}
		}
		if last >= 0 {
			p := &s.Plucks[last]
			if left := at - p.At; p.Damp == 0 || p.Damp > left {
				p.Damp = left
			}
		}
	}
	return s
}

// check says what in a score cannot be played, for A4 at a4 Hz.
func (s Score) check(a4 float64) error {
	switch {
	case s.Length <= 0:
		return fmt.Errorf("the score is %v long: it must last longer than nothing", s.Length)
	case s.Length > LongestScore:
		return fmt.Errorf("the score is %v long: the longest is %v", s.Length, LongestScore)
	case len(s.Plucks) == 0:
		return errors.New("the score is empty: it needs one pluck or more")
	}
	for _, p := range s.Plucks {
		f := p.Pitch.Frequency(a4)
		switch {
		case f < LowestPitch || f > HighestPitch:
			return fmt.Errorf("%v on string %d is %.4g Hz: a string sounds %v to %v Hz", p.Pitch, p.String, f, LowestPitch, HighestPitch)
		case p.At < 0 || p.At >= s.Length:
			return fmt.Errorf("%v on string %d is plucked at %v: the score lasts from 0 to %v", p.Pitch, p.String, p.At, s.Length)
		case !(p.Strength > 0 && p.Strength <= 1):
			return fmt.Errorf("%v on string %d is plucked with strength %v: it must be above 0 and at most 1", p.Pitch, p.String, p.Strength)
		case p.Damp < 0:
			return fmt.Errorf("%v on string %d is stopped %v after its pluck: it cannot be stopped before", p.Pitch, p.String, p.Damp)
		}
	}
	return nil
}

// InTime returns the plucks in the order in which they come; those that come at once as they are listed.
func (s Score) InTime() []Pluck {
	return slices.SortedStableFunc(slices.Values(s.Plucks), func(a, b Pluck) int {
		return cmp.Compare(a.At, b.At)
	})
}
