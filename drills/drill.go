// Package drills holds what is asked, how an answer is marked and how it is explained. It is where
// theory and sound meet.
package drills

import (
	"errors"

	"sparetone/drills/neck"
	"sparetone/theory/say"
)

// Drill makes questions about one skill. A question marks and explains its own answers.
//
//  1. About never changes.
//  2. Targets lists what the drill can ask on an instrument, in the order in which choices are
//     shown. It may be empty: then the drill has nothing for that instrument.
//  3. Rungs lists the forms in which a target is asked, the clearest first: one at least.
//  4. Ask makes a question for one of those targets. The same request, with a Rand in the same
//     state, makes the same question. The error says why there is none, such as a chord that has no
//     shape on the tuning.
type Drill interface {
	About() About
	Targets(on *neck.Instrument) []Target
	Rungs(target string) []Rung
	Ask(r Request) (*Question, error)
}

// About says what a drill is.
type About struct {
	ID    string // fixed, such as chord-ear
	Title string // what the student does, such as "Name the chord by ear"
	Ears  bool   // it cannot be done without sound
	// ByHeart says that an answer is known and not worked out: while it is new the same comes again.
	ByHeart bool
	Terse   bool // an answer says little without the name of what was asked, as "the first" does
}

// Target is one thing a drill teaches: a kind of chord, an interval, an added note.
type Target struct {
	ID    string   // stable, lower case, such as dominant
	Topic Topic    // what it is about
	Name  say.Text // as a person reads it
	Near  []string // targets it is easily mistaken for
	Ears  bool     // it cannot be done without sound, though others of its drill can

	Telling bool // its name says what is right: the third is doubled
}

// Topic is what a target is about, the same in every drill that teaches it: a kind of chord is one topic, whether it is heard,
// seen, built or spelled.
type Topic struct {
	Of string // what it is one of, such as kind
	ID string // such as dominant
}

// ErrNothing is the error of a course, or a part of it, that holds no question at all.
var ErrNothing = errors.New("there is nothing to ask: no drill that was chosen has a question for this instrument without sound")
