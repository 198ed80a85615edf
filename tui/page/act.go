package page

import (
	"strings"

	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/synth"
	"sparetone/theory/say"
)

// Act is one thing to do at a place: a key on the screen, a word in lines of text. The zero Act is none, and Only drops it.
type Act struct {
	ID         string   // in the table of acts
	Keys       string   // keys on the screen, between spaces; a click presses the first
	KeyName    string   // what the bottom line and the help call the keys; empty where that is the first key
	Does       string   // what the act does, on the screen, in a word or two; only the help has what stands behind a semicolon
	HelpOnly   bool     // the help names the act, the bottom line does not
	Words      string   // what is typed for the act in lines, one or several between bars; "" among them is an empty line; one that ends in a space is followed by more
	Says       string   // what the act does, in the spoken help behind the first of its Words
	Off        say.Text // why the act does nothing now: no key does it, no help names it, and its word is answered with this; zero where it works
	ScreenOnly bool     // the act moves over a block or fills it in; lines say that block whole, and Page.Take takes what is typed instead

	Do func(more string) Next // does the act; more is what was typed behind its word. nil where the block itself knows what its keys do
}

// Next is what comes of an act. The zero Next is nothing: one stays, and nothing sounds anew.
type Next struct {
	To          Place                        // where one goes; nil where one stays
	Voice       synth.Voice                  // plays Sounds
	Sounds      []drills.Sound               // are played in turn; nil plays nothing
	Song        func() (*synth.Sound, error) // makes a song ready, which is played in place of what sounds; nil for none
	OpensField  bool                         // the field of the screen opens, with nothing typed in it yet
	Silence     bool                         // what sounds is stopped
	Said        say.Text                     // a sentence on what came of the act; zero for none
	ToldInLines []say.Text                   // further sentences of lines alone: the screen has them on its page
	OnlyInLines bool                         // Said is said in lines alone: the screen shows it otherwise
	Stays       bool                         // Said stands on the screen until one goes elsewhere, not only until the next key
	Wrong       bool                         // Said tells what is wrong with what was typed
	Unknown     bool                         // what was typed means nothing here
	NewPage     bool                         // lines say the page anew, and the screen shows it from its top
	Ends        bool                         // the program ends
}

// Refused stays at a place, and says why what was asked for cannot be done.
func Refused(err error) Next { return Next{Said: practice.SentenceOf(err)} }

// Mistyped stays at a place, and says what is wrong with what was typed.
func Mistyped(err error) Next { return Next{Said: practice.SentenceOf(err), Wrong: true} }

// InSilence returns n with what sounds stopped.
func (n Next) InSilence() Next { n.Silence = true; return n }

// As returns the act with other words for what it does, on the screen.
func (a Act) As(does string) Act { a.Does = does; return a }

// On returns the act on other keys.
func (a Act) On(keys string) Act { a.Keys = keys; return a }

// OffIf returns the act switched off where off is true, with the reason.
func (a Act) OffIf(off bool, why say.Text) Act {
	if off {
		a.Off = why
	}
	return a
}

// If returns the act where works is true, and else the zero Act.
func (a Act) If(works bool) Act {
	if !works {
		return Act{}
	}
	return a
}

// HasKey reports whether a key does the act; none does while it is off.
func (a *Act) HasKey(key string) bool {
	for one, rest, more := "", a.Keys, a.Off.IsZero(); more; {
		if one, rest, more = strings.Cut(rest, " "); one == key {
			return true
		}
	}
	return false
}

// Match reports whether a line that was typed is one of the act's words, and returns what follows the word.
func (a Act) Match(line string) (more string, ok bool) {
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

// Unstopped returns a line without the full stop that dictation puts at its end.
func Unstopped(line string) string {
	if before := strings.TrimRight(line, ". "); before != "" {
		return before
	}
	return line
}
