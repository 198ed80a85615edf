package played

import "sparetone/synth/hear"

// Listening is what is listened for. The zero Listening is nothing.
type Listening struct {
	Task  *hear.Task // strings, struck at once or plucked in turn
	Notes *Notes     // one note after another
}

// Notes are notes to listen for, one after another: plucked, or, if they may be, sung.
type Notes struct {
	Pitches []int // the MIDI numbers that may be plucked, rising
	Sung    bool  // others may be sung, in any octave
	A4      float64
}

// Heard is what an ear heard: one of its fields is set.
type Heard struct {
	Reading *hear.Reading // of strings
	Note    *Note
	Paused  bool // after notes there was a pause
	Begun   int  // so many strings were plucked of those that are plucked in turn
	Nothing bool // something was struck, and no string or note was heard in it
	Noisy   bool // the noise is too loud for anything to be said
}

// Note is a note that was heard.
type Note struct {
	MIDI int
	Sung bool
}
