package home

import (
	"strings"

	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/theory/say"
	"sparetone/tui/page"
)

// Today.

// moreOf is what more there is to say of ways from today's page.
var moreOf = map[string]string{"eye": "no sound is needed", "weak": "what is mistaken for what", "known": "by ear, and chord by chord", "course": "what comes in when", "try": "any chord, any shape", "songs": "of your own", "lessons": "of your teacher", "tune": "the microphone listens"}

// sayWays names what can be typed on today's page.
func sayWays(ways []page.Act) string {
	var words []string
	for _, a := range ways[1:] {
		words = append(words, a.Words)
	}
	return "An empty line begins. Or type: " + strings.Join(words, ", ") + ", help or leave."
}

// sayWrong and sayRight are sentences with the sign that says it as well.
func sayWrong(what string) say.Text   { return say.Of("✗ {}", say.Foreign(what)) }
func sayRight(what say.Text) say.Text { return say.Of("✓ {}", what) }

// Lists.

const askDrill = "Type the number or the name of the drill to practise."

func sayDrill(about drills.About) say.Text {
	return say.Of("{} ({})", say.Words(about.Title), say.Words(about.ID))
}

// Weak spots.

// Weak spots.
var nothingMistaken = say.Of("Nothing was mistaken for anything in the last eight weeks. When something is, it stands here.")

func askPairs(pairs int, weak bool) string {
	switch {
	case pairs == 0 && weak:
		return "Nothing was mistaken for anything in the last eight weeks, but something is weak. Type all to practise it."
	case weak:
		return "Type a number to practise that pair, or all to practise all that is weak."
	case pairs == 0:
		return ""
	}
	return "Type a number to practise that pair."
}

// Settings.

// Settings.
const askSetting = "To change one, type its name and what it is to be, such as: capo 2. Its name alone says what it may be."

func saySetting(s *practice.Settings, k practice.Setting) say.Text {
	return say.Of("{}: {}. {}", k.Title, k.Long(k.Get(s)), k.Explained(s))
}

func sayMay(s *practice.Settings, k *practice.Setting) say.Text {
	return say.Of("{} is {}. It may be: {}.", k.Title, k.Long(k.Get(s)), k.May())
}

func sayNow(s *practice.Settings, k *practice.Setting) say.Text {
	return say.Of("{} is now {}.", k.Title, k.Long(k.Get(s)))
}

func saySet(s *practice.Settings, k *practice.Setting) say.Text {
	return say.Of("Set to {}.", k.Long(k.Get(s)))
}

func sayNoSetting(typed string) say.Text { return say.Of("{} is no setting here.", say.Typed(typed)) }

// Tuning.

// Tuning.
const askTuning = "Pluck one string after another: each is said when it was heard."

// What is said where the tuner does not listen.
var (
	notListening      = say.Of("The microphone is off: ctrl+l switches it on.")
	notListeningAloud = say.Of("The microphone is off: listen switches it on.")
)

// The end of a practice.

func saySaveIn(proposed string) say.Text {
	return say.Of("Type save to keep them in {}, or save and another file.", say.Foreign(proposed))
}

func sayNotKept(err error) say.Text { return say.Of("Not kept: {}", say.Foreign(err.Error())) }

// The first run.

// What is said in the first run.
var (
	greeted       = say.Of("Five short steps; enter accepts what is marked.")
	greetedAloud  = say.Of("Welcome to sparetone. A few short questions first; stop leaves them for another time.")
	deviceOpening = say.Of("The sound device is opening.")
	byEyeFromNow  = say.Of("Then only questions for the eye are asked, until you leave. The next time sound is tried again.")
	putAside      = say.Of("There is no sound any more, so this question is put aside.")
)

// What can be typed in the first run.
const (
	leadGreeting = "Type a number, or the words after it."
	askSound     = "These are the open strings. Type again, louder or softer; no, if you hear nothing. An empty line goes on."
	leadPlacing  = "Answer with a number or in words."
)

var howToPlace = say.Of(leadPlacing + " 0, or an empty line, says that you do not know; stop goes back.")

// unheardOf is what the step of sound says where there is none: on the screen, and in lines of text under a title.
type unheardOf struct{ about, title, aloud string }

// The two cases of no sound.
var (
	soundOff  = unheardOf{"Sound is off, as you asked: practice is by eye only.", "Sound is off, as you asked.", "Only questions for the eye are asked."}
	soundless = unheardOf{"There is no sound here. Practice is by eye until there is; space tries again.", "There is no sound here.", "Only questions for the eye are asked until there is."}
)

// greetingsAloud is what steps are about in lines of text, where the screen speaks of keys and drawings.
var greetingsAloud = map[int]string{
	stepInstrument:     "Shapes are for it. You can change this later, like everything here.",
	stepHand:           "It matters only on the full screen, where necks are drawn.",
	practice.StepSound: "It begins quietly; type louder until it is comfortable. Without sound, questions for the eye are asked.",
}

// stepHand is the step of the first run that asks with which hand one plays.
const stepHand = 1

func greetingAloud(step int) string {
	if aloud, ok := greetingsAloud[step]; ok {
		return aloud
	}
	return practice.Greetings[step].About
}

func sayStep(step int) say.Text {
	return say.Of("{} of {}", say.Number(step+1), say.Number(len(practice.Greetings)))
}

func sayGreeting(step int, title string) say.Text {
	if !strings.HasSuffix(title, "?") {
		title = practice.Sentence(title)
	}
	return say.Of("{}. {}", sayStep(step), say.Foreign(title))
}

func sayTaken(what say.Text) string { return say.Of("An empty line takes {}.", what).Aloud() }

func sayOpenStrings(volume int) say.Text {
	return say.Of("Open strings, at volume {} of 10.", say.Number(volume))
}

// What is to be typed in lists of the course, and where something was found.
const (
	askChapter = "Type the number of a chapter to open it."
	askPart    = "Type the number of a part to open it."
	askThing   = "Type the number of a thing to hear and see it again."
	askFound   = "An empty line begins there; stop leaves it as it was."
)
