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

// Page is what a place shows and lets one do. Of lines of text is what lines alone take up; the screen passes over it.
type Page struct {
	Blocks     []Block
	Acts       []Act                   // in the order of the bottom line
	Take       func(typed string) Next // takes typed text that is no word of an act: an answer, a number, a name; nil where nothing else can be typed
	Ask        string                  // of lines: what may be typed, said after all blocks
	HelpBegins string                  // of lines: the first sentence of the help; empty where that is Ask
	Waits      bool                    // of lines: the page waits for sound; until then it is not said, and nothing is taken
	Last       bool                    // of lines: the page ends a practice; who leaves the program hears it, and is gone
	OnlySaid   bool                    // of lines: nothing is asked after the page; the act of an empty line follows by itself
	Verbatim   bool                    // of lines: typed text is handed to Take as it stands, with its spaces, and so is an empty line; only words of its acts are not
	GoesOn     *GoesOn                 // how the page goes on by itself; nil where it waits for a key or a line
	Explains   bool                    // each word of the trade is explained on the page where it appears for the first time
	Written    bool                    // notes and degrees stand under shapes even before it was explained what a root is
	Hinted     func()                  // is called when a word was explained by its sound, which may give the answer away; nil where nothing is asked
}

// GoesOn is when a page goes on by itself, by its act "go on": once its sounds have ended and it has been read.
type GoesOn struct {
	Seen, Aloud time.Duration // how long the page takes to read on the screen, and to be said
	Stay        func()        // is called when something is pressed or typed: the page waits from then on
}

// How long a word takes to read, at 240 words a minute silently and 160 spoken (from memory; reading rates differ widely).
const (
	seenWord   = time.Minute / 240
	spokenWord = time.Minute / 160
)

// GoesAfter returns when a page of so many words goes on by itself; stay is called when it is to wait after all.
func GoesAfter(words int, stay func()) *GoesOn {
	return &GoesOn{Seen: time.Duration(words) * seenWord, Aloud: time.Duration(words) * spokenWord, Stay: stay}
}
