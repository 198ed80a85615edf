// Package page is every place of the program as a value: what it shows, what it says, and what one can do there and where
// that leads. The full screen draws a page and finds acts by their keys, lines of text print it and find acts by their
// words; neither has places or acts of its own.
package page

import (
	"slices"
	"strings"
	"time"

	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/synth"
	"sparetone/theory/say"
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
}

// Goes is how a page goes on by itself, by its act "go on": when what is played has ended, and no sooner than it was read.
type Goes struct {
	Seen, Aloud time.Duration // how long it takes to read it, on the screen and aloud
	Stay        func()        // it is to wait after all, since something was pressed or typed
}

// Act is one thing to do at a place.
type Act struct {
	ID    string
	Keys  string   // on the screen, between spaces; a click presses the first
	Shown string   // how the keys are called, if not by the first
	Does  string   // on the screen, in a word or two; what stands behind a semicolon is for the help alone
	Aside bool     // the help names it, the bottom line does not
	Words string   // in lines, between bars: what is typed for it. A word that ends in a space is followed by more
	Says  string   // in spoken help, behind the first word
	Off   say.Text // why it does nothing now: no key or help has it, and its word says so; zero if it works
	Eye   bool     // of the screen alone: it moves over a block or fills it in. Lines of text say a block whole, and Page.Take takes what is typed

	Do func(more string) Next // more is what is typed behind its word; nil where the block that is moved over knows what to do
}

// Next is what comes of an act.
type Next struct {
	To      Place // where one is now; nil where one was
	Voice   synth.Voice
	Sounds  []drills.Sound               // to be played on Voice, in turn; nil plays nothing
	Song    func() (*synth.Sound, error) // a song to be made ready and played, instead of what sounds
	On      bool                         // the screen's field goes on to take what is typed
	Hush    bool                         // what sounds stops
	Said    say.Text                     // a word on what came of it
	Told    []say.Text                   // more words, of lines of text alone: the screen has them on its page
	Aloud   bool                         // that word is of lines of text alone: the screen shows it otherwise
	Stays   bool                         // that word stays as long as the place does
	Wrong   bool                         // that word is what is wrong with what was typed
	Unknown bool                         // what was typed means nothing here
	Anew    bool                         // the page is another one, to be read from its beginning
	Ends    bool                         // the program ends
}

// refused is staying with the reason.
func refused(err error) Next { return Next{Said: practice.SentenceOf(err)} }

// hushed is the same in silence.
func (n Next) hushed() Next { n.Hush = true; return n }

// called returns a known act with what it does here.
func called(id string, do func(more string) Next) Act {
	a := acts[id]
	a.ID, a.Do = id, do
	return a
}

// leads is a known act that only leads to a place.
func leads(id string, to func() Place) Act {
	return called(id, func(string) Next { return Next{To: to(), Hush: true} })
}

// As is the act under other words on the screen.
func (a Act) As(does string) Act { a.Does = does; return a }

// on is the act on another key.
func (a Act) on(keys string) Act { a.Keys = keys; return a }

// said is the act under other words in lines.
func (a Act) said(words string) Act { a.Words = words; return a }

// off is the act where it does nothing, if that is so, with the reason.
func (a Act) off(is bool, why say.Text) Act {
	if is {
		a.Off = why
	}
	return a
}

// where returns the act where it works, and else none.
func (a Act) where(works bool) Act {
	if !works {
		return Act{}
	}
	return a
}

// only drops the acts that do not work here.
func only(all ...Act) []Act { return slices.DeleteFunc(all, func(a Act) bool { return a.ID == "" }) }

// Hit reports whether a key is one of the act's.
func (a *Act) Hit(key string) bool {
	for one, rest, more := "", a.Keys, a.Off.IsZero(); more; {
		if one, rest, more = strings.Cut(rest, " "); one == key {
			return true
		}
	}
	return false
}

// Said reports whether a line is one of the act's words, and what follows it.
func (a Act) Said(line string) (more string, ok bool) {
	if a.Words == "" {
		return "", false
	}
	first, rest, _ := strings.Cut(line, " ")
	for _, word := range strings.Split(a.Words, "|") {
		if before, follows := strings.CutSuffix(word, " "); follows && strings.EqualFold(before, Unstopped(first)) {
			return strings.TrimSpace(rest), true
		} else if !follows && strings.EqualFold(word, Unstopped(line)) {
			return "", true
		}
	}
	return "", false
}

// Unstopped is a line without the full stop at its end, which dictation puts there.
func Unstopped(line string) string {
	if before := strings.TrimRight(line, ". "); before != "" {
		return before
	}
	return line
}
