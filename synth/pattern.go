package synth

import (
	"cmp"
	"slices"
	"time"
)

// Pattern is what a plucking hand does over and over, in steps of equal length.
type Pattern struct {
	Steps   []Step // in turn; then from the first again
	PerBeat int    // steps in a beat, 1 or more
}

// Step is what a hand does at one step of a pattern. Its zero value lets all strings ring on.
type Step struct {
	Stroke  How   // over all strings that sound: Block, Strum or Up; empty for no stroke
	Strings []int // numbers of strings that are plucked together; those that do not sound are passed over
	Hammer  bool  // the strings sound what they did Before, and half way to the next step a finger is hammered on to what is held
	Still   bool  // all strings are stilled, before anything is plucked
}

// Held is what a fretting hand holds for some beats.
type Held struct {
	Notes  []Sounding // in tuning order
	Beats  float64    // above 0
	Before []Sounding // what strings sound before a finger is hammered on; those that are not in it are plucked as they are held
}

// Along plays what is held, in turn, to a pattern that goes on over every change; Tempo counts beats. As the fretting hand
// changes, strings that keep their pitch ring on, and the others are stilled until they are plucked again. What is held
// last rings on for Ring after its beats. Without steps nothing is plucked.
func (h Hand) Along(p Pattern, all ...Held) (s Score) {
	if len(p.Steps) == 0 || p.PerBeat < 1 {
		return Score{}
	}
	when := func(step int) float64 { return float64(step) / float64(p.PerBeat) } // in beats
	n, from := 0, 0.0                                                            // steps and beats so far
	for i, held := range all {
		at := h.beats(from)
		if i > 0 {
			s = s.Still(at, Leaving(all[i-1].Notes, held.Notes)...)
		}
		for from += held.Beats; when(n) < from-rounding; n++ {
			s = h.step(s, p.Steps[n%len(p.Steps)], held, h.beats(when(n)), h.beats(when(1)))
		}
	}
	s.Length = h.beats(from) + cmp.Or(h.Ring, ring)
	return s
}

// beats returns how long so many beats last.
func (h Hand) beats(n float64) time.Duration {
	return time.Duration(n * float64(time.Minute) / cmp.Or(h.Tempo, tempo))
}

// rounding is what beats that were added up may be amiss: a step there belongs to what is held next.
const rounding = 1e-6

// Leaving returns the numbers of the strings that do not keep their pitch as one set of notes follows another.
func Leaving(before, after []Sounding) (numbers []int) {
	for _, n := range before {
		if !slices.Contains(after, n) {
			numbers = append(numbers, n.String)
		}
	}
	return numbers
}

// step adds to a score what is done at one step. A stroke has crossed all strings before the next step.
func (h Hand) step(s Score, do Step, held Held, at, length time.Duration) Score {
	notes := held.Notes
	if do.Still {
		for _, number := range s.Strings() {
			s = s.Still(at, number)
		}
	}
	var done Score
	if do.Stroke != "" {
		done = h.Play(do.Stroke, notes)
	} else {
		done = h.Block(slices.DeleteFunc(slices.Clone(notes), func(n Sounding) bool { return !slices.Contains(do.Strings, n.String) }))
	}
	most := length * 3 / 4
	var last time.Duration
	for _, p := range done.Plucks {
		last = max(last, p.At)
	}
	for _, p := range done.Plucks {
		if last > most {
			p.At = p.At * most / last
		}
		p.At += at
		before := slices.IndexFunc(held.Before, func(n Sounding) bool { return n.String == p.String && n.Pitch.MIDI() != p.Pitch.MIDI() })
		if do.Hammer && before >= 0 {
			on := p
			on.At, on.Slur = p.At+length/2, true
			p.Pitch = held.Before[before].Pitch
			s.Plucks = append(s.Plucks, p, on)
			continue
		}
		s.Plucks = append(s.Plucks, p)
	}
	return s
}
