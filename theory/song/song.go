package song

import (
	"slices"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// Song is a chart as a value.
type Song struct {
	Header   Header
	Sections []Section // at least one; the name of the first may be empty
}

// Header is what a chart says before its first chord. What it does not say is zero.
type Header struct {
	Title  string
	Key    *theory.Key
	Tempo  float64 // beats a minute, LowestTempo to HighestTempo
	Meter  Meter
	Tuning *fret.Tuning // without its capo
	Capo   int          // fret
	Pick   Pattern
	Strum  Pattern
}

// The tempos that are taken, in beats a minute.
const (
	LowestTempo  = 30
	HighestTempo = 300
)

// Meter is a time signature. The zero Meter is not said, and taken as four quarters.
type Meter struct{ Beats, Unit int } // 6/8 has six beats of a unit of eight

// commonTime is the meter of a chart that says none (common practice, no source).
var commonTime = Meter{4, 4}

// Meter returns the song's meter, four quarters if it says none.
func (s Song) Meter() Meter {
	if s.Header.Meter == (Meter{}) {
		return commonTime
	}
	return s.Header.Meter
}

// Section is a part of a song that may have a name. One with the name of an earlier section and no lines of its own stands
// for that one again.
type Section struct {
	Name  string
	Lines []Line
}

// Form is how the chords of a line are written.
type Form int

// The forms of a line.
const (
	Words    Form = iota // words without chords; none is a blank line
	Bars                 // chords between bar lines
	Brackets             // chords in square brackets in the words
	Above                // chords on a line above the words
)

// Line is a line of a chart: bars, or words with chords over them.
type Line struct {
	Form  Form
	Bars  []Bar  // of Bars
	Words string // of the other forms
	Over  []Over // of Brackets and Above, from left to right
	Times int    // how often a line of the form Above is played; 0 is once

	Key *theory.Key // the key of its chords and of those in later lines; nil if that goes on
}

// Over is an entry over words.
type Over struct {
	At int // over which character of the words, counted from 0; at their end after the last
	Entry
}

// Bar is what stands between two bar lines.
type Bar struct {
	Entries []Entry // in turn; without any, what sounded goes on
	Same    bool    // as the bar before
	Start   bool    // a repeat begins with it
	End     bool    // a repeat ends with it
	Times   int     // how often the repeat that ends with it is played; 0 is twice
	Endings []int   // the times of the repeat at which an ending is played that begins with it; none if none does
}

// What fills an entry.
type What int

// The kinds of entries.
const (
	Chord   What = iota
	Hold         // what sounds goes on
	Silent       // no chord is played
	BarLine      // over words in the form Brackets
)

// Entry is one thing in a bar, or over words.
type Entry struct {
	What  What
	Chord theory.Chord // of Chord
	Typed string       // as it was written; empty for a chord that is written by its symbol
}

// Chords returns the chords of a song in the order in which they are written.
func (s Song) Chords() (chords []theory.Chord) {
	for _, section := range s.Sections {
		for _, line := range section.Lines {
			for _, entry := range line.entries() {
				if entry.What == Chord {
					chords = append(chords, entry.Chord)
				}
			}
		}
	}
	return chords
}

// entries returns the entries of a line in turn.
func (l Line) entries() (entries []Entry) {
	for _, b := range l.Bars {
		entries = append(entries, b.Entries...)
	}
	for _, o := range l.Over {
		entries = append(entries, o.Entry)
	}
	return entries
}

// keys returns the key of each line of each section, nil for the song's own. What a section stands for again is in the key in which it was written.
func (s Song) keys() [][]*theory.Key {
	var now *theory.Key
	out := make([][]*theory.Key, len(s.Sections))
	for n, section := range s.Sections {
		for _, line := range section.Lines {
			if line.Key != nil {
				now = line.Key
			}
			out[n] = append(out[n], now)
		}
	}
	return out
}

// Form returns the form in which most chords of the song are written, Words if it has none.
func (s Song) Form() Form {
	var count [Above + 1]int
	for _, section := range s.Sections {
		for _, line := range section.Lines {
			count[line.Form] += len(line.entries())
		}
	}
	count[Words] = 0
	return Form(slices.Index(count[:], slices.Max(count[:])))
}

// Different returns the chords that a song has, each once, in the order in which they first come.
func (s Song) Different() (chords []theory.Chord) {
	for _, c := range s.Chords() {
		if !slices.Contains(chords, c) {
			chords = append(chords, c)
		}
	}
	return chords
}
