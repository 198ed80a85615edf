package page

import (
	"strings"

	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/synth"
	"sparetone/theory/say"
)

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

// Refused is staying with the reason.
func Refused(err error) Next { return Next{Said: practice.SentenceOf(err)} }

// Hushed is the same in silence.
func (n Next) Hushed() Next { n.Hush = true; return n }

// As is the act under other words on the screen.
func (a Act) As(does string) Act { a.Does = does; return a }

// On is the act on another key.
func (a Act) On(keys string) Act { a.Keys = keys; return a }

// OffIf is the act where it does nothing, if that is so, with the reason.
func (a Act) OffIf(is bool, why say.Text) Act {
	if is {
		a.Off = why
	}
	return a
}

// If returns the act where it works, and else none.
func (a Act) If(works bool) Act {
	if !works {
		return Act{}
	}
	return a
}

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
