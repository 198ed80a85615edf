// Package page is what a place of the program is, as a value: the blocks that it shows and says, the acts that can be done there, and where
// they lead. The full screen draws a page and finds acts by their keys, lines of text print it and find acts by their words; neither has
// places or acts of its own. The places are in the rooms above this one.
package page

import (
	"time"
)

// Place is somewhere one can be. It keeps what changes there, and makes the page of it.
type Place interface {
	// Page returns the place as it is now. Blocks and acts are of that moment: after an act another page is made.
	Page(w *Walk) Page
}

// Page is what a place shows and lets one do.
type Page struct {
	Blocks   []Block
	Acts     []Act                   // in the order of the bottom line
	Take     func(typed string) Next // takes what is typed and is the word of no act: an answer, a number, a name; nil takes nothing
	Ask      string                  // in lines, said last: what may be typed
	Lead     string                  // begins the spoken help; Ask if it is empty
	Waits    bool                    // it waits for sound: in lines it is not said yet, and nothing is taken
	Last     bool                    // it ends a practice: in lines, whoever leaves the program has heard it and is gone
	Passed   bool                    // in lines it is only said: the act of an empty line follows by itself
	Verbatim bool                    // in lines, what is typed is taken as it stands, an empty line too, but for the words of its acts
	Goes     *Goes                   // it goes on by itself; nil if it waits
	Explains bool                    // each word of the trade on it is explained where it appears for the first time
	Written  bool                    // notes and degrees stand under its shapes even where it was never said what a root is
	Hinted   func()                  // is told that a word was heard that may help with what is asked; nil where nothing is asked
}

// Goes is how a page goes on by itself, by its act "go on": when what is played has ended, and no sooner than it was read.
type Goes struct {
	Seen, Aloud time.Duration // how long it takes to read it, on the screen and aloud
	Stay        func()        // it is to wait after all, since something was pressed or typed
}

// How long a word takes to read, at 240 words a minute silently and 160 spoken (from memory; reading rates differ widely).
const (
	seenWord   = time.Minute / 240
	spokenWord = time.Minute / 160
)

// GoesAfter is going on once some words were read; stay is told that it is to wait after all.
func GoesAfter(words int, stay func()) *Goes {
	return &Goes{Seen: time.Duration(words) * seenWord, Aloud: time.Duration(words) * spokenWord, Stay: stay}
}
