package hear

import (
	"fmt"
	"slices"

	"sparetone/theory"
)

// Silent is what a string sounds, in place of a MIDI number, that does not sound.
const Silent = -1

// String is a string that is listened for.
type String struct {
	Number int   // the string's number
	Open   int   // the MIDI number of the open string
	May    []int // the MIDI numbers of the pitches that it may sound, the open string's among them; silent it may always be
}

// Task is what may be played. With one string in its order, and neither Expect nor Among, it is whatever is plucked one after another: each
// pluck is a reading of its own, of one of the pitches that the string may sound, none likelier than another.
type Task struct {
	Strings []String // in tuning order
	Expect  []int    // what each string should sound: a MIDI number, or Silent; nil if nothing is expected
	Among   [][]int  // what else may be played as a whole, each as Expect; without Expect, what is played is one of these
	Order   []int    // the numbers of all strings in the order in which they are plucked, one after another; nil: all are struck at once
	A4      float64  // Hz; 0 is 440
}

// The limits of a task.
const (
	lowestPitch  = 24  // MIDI: C1
	highestPitch = 108 // C8
	mostStrings  = 12
)

// check says what is wrong with a task.
func (t Task) check() error {
	if len(t.Strings) == 0 || len(t.Strings) > mostStrings {
		return fmt.Errorf("%d strings to listen for: it must be 1 to %d", len(t.Strings), mostStrings)
	}
	var numbers []int
	for _, s := range t.Strings {
		if slices.Contains(numbers, s.Number) {
			return fmt.Errorf("string %d is there twice", s.Number)
		}
		numbers = append(numbers, s.Number)
		if !slices.Contains(s.May, s.Open) {
			return fmt.Errorf("string %d may not sound open, at %d: it must be among what it may sound", s.Number, s.Open)
		}
		for _, p := range s.May {
			if p < lowestPitch || p > highestPitch {
				return fmt.Errorf("string %d at MIDI number %d: it must be %d to %d", s.Number, p, lowestPitch, highestPitch)
			}
		}
	}
	if t.Expect == nil && len(t.Among) == 0 && !t.free() {
		return fmt.Errorf("nothing to listen for: give what is expected, or among what it is")
	}
	wholes := t.Among
	if t.Expect != nil {
		wholes = append([][]int{t.Expect}, wholes...)
	}
	for _, w := range wholes {
		if len(w) != len(t.Strings) {
			return fmt.Errorf("%d pitches for %d strings: there must be one for each", len(w), len(t.Strings))
		}
		for i, p := range w {
			if p != Silent && !slices.Contains(t.Strings[i].May, p) {
				return fmt.Errorf("string %d at MIDI number %d: that is none of the pitches that it may sound", t.Strings[i].Number, p)
			}
		}
		if !slices.ContainsFunc(w, func(p int) bool { return p != Silent }) {
			return fmt.Errorf("nothing would sound: one string must")
		}
	}
	for i, n := range t.Order {
		if !slices.Contains(numbers, n) || slices.Contains(t.Order[:i], n) {
			return fmt.Errorf("string %d in the order: each must be one that is listened for, and be there once", n)
		}
	}
	if t.Order != nil && len(t.Order) != len(numbers) {
		return fmt.Errorf("an order of %d strings: it must have all %d that are listened for", len(t.Order), len(numbers))
	}
	if t.A4 != 0 && !(t.A4 >= 380 && t.A4 <= 500) {
		return fmt.Errorf("A4 at %v Hz: it must be 380 to 500 Hz", t.A4)
	}
	return nil
}

// free reports whether each pluck is read by itself.
func (t Task) free() bool {
	return t.Expect == nil && len(t.Among) == 0 && len(t.Strings) == 1 && len(t.Order) == 1
}

// a4 is the frequency of A4 in Hz.
func (t Task) a4() float64 {
	if t.A4 == 0 {
		return theory.StandardA4
	}
	return t.A4
}

// pitches returns the MIDI numbers of all that may sound, rising.
func (t Task) pitches() []int {
	var all []int
	for _, s := range t.Strings {
		all = append(all, s.May...)
	}
	slices.Sort(all)
	return slices.Compact(all)
}
