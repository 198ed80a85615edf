package page

import (
	"errors"
	"fmt"
	"strings"

	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Wording of the places, beside the facts that go into it. What acts are called stands in acts.go.

// title is what a place is called on the screen.
func title(name string) Block { return Seen{Text: say.Of(name), Tone: Strong} }

// What is said where something has to be done first, or cannot be.
var (
	noSuchFret   = say.Of("That string has no such fret.")
	moveFirst    = say.Of("Move one string first.")
	fingersFirst = say.Of("Set your fingers first; 0 is an open string.")
	degreesFirst = say.Of("Every string that sounds needs a degree, such as R, 3, 5, b7 or 9.")
	notHeardYet  = say.Of("It was not heard yet: space tries the sound again.")
	waiting      = say.Of("Waiting for the sound device; space tries again.")
	timeIsUp     = say.Of("The time is up.")
	putAside     = say.Of("There is no sound any more, so this question is put aside.")
	byEyeFromNow = say.Of("Then only questions for the eye are asked, until you leave. The next time sound is tried again.")
)

// nothingToHear is why an act that sounds does nothing.
var nothingToHear = say.Of("There is nothing to hear here.")

// What is said where enter is pressed and nothing is there yet.
var (
	typeFirst   = say.Of("Type an answer first.")
	chooseFirst = say.Of("Choose first: press the number before an answer.")
)

// misfit says what is wrong with what was typed. Frets that do not fit are named as they were typed.
func misfit(typed string, err error) Next {
	if m := (*fret.MisfitError)(nil); errors.As(err, &m) {
		return Next{Said: say.Of("{}{}.", say.Typed(typed), say.Words(m.Why)), Wrong: true}
	}
	return Next{Said: practice.SentenceOf(err), Wrong: true}
}

// sayWrong and sayRight are sentences with the sign that says it as well.
func sayWrong(what string) say.Text   { return say.Of("✗ {}", say.Foreign(what)) }
func sayRight(what say.Text) say.Text { return say.Of("✓ {}", what) }

// failing says why something could not go on.
func failing(err error) []Block {
	why := practice.SentenceOf(err)
	return []Block{Seen{Text: say.Of("✗ {}", why), Tone: Wrong}, Aloud(why)}
}

func sayVolume(n int) say.Text { return say.Of("Volume {} of 10.", say.Number(n)) }

func sayVolumeUnkept(n int, err error) say.Text {
	return say.Of("Volume {} of 10, not kept: {}.", say.Number(n), say.Ended(say.Said(err)))
}

// What is said when the microphone is switched.
var (
	nowListening    = say.Of("The microphone is switched on. Nothing of it is kept. Stop listening switches it off.")
	noMoreListening = say.Of("The microphone is switched off.")
)

// Tuning.
const askTuning = "Pluck one string after another: each is said when it was heard."

var (
	notListening      = say.Of("The microphone is off: ctrl+l switches it on.")
	notListeningAloud = say.Of("The microphone is off: listen switches it on.")
)

// byEyeOnly is what follows of there being no sound.
const byEyeOnly = "only questions for the eye."

func sayNoSound(reason, follows string) say.Text {
	return say.Of("No sound ({}): {}", say.Foreign(reason), say.Words(follows))
}

// Today.

// moreOf is what more there is to say of ways from today's page.
var moreOf = map[string]string{"eye": "no sound is needed", "weak": "what is mistaken for what", "known": "by ear, and chord by chord", "course": "what comes in when", "try": "any chord, any shape", "songs": "of your own", "lessons": "of your teacher", "tune": "the microphone listens"}

// sayWays names what can be typed on today's page.
func sayWays(ways []Act) string {
	var words []string
	for _, a := range ways[1:] {
		words = append(words, a.Words)
	}
	return "An empty line begins. Or type: " + strings.Join(words, ", ") + ", help or leave."
}

// Lists.
const (
	askDrill  = "Type the number or the name of the drill to practise."
	askPrompt = "Type it, or stop, to go back."
)

func sayDrill(about drills.About) say.Text {
	return say.Of("{} ({})", say.Words(about.Title), say.Words(about.ID))
}

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

// Saving.
var aboutSaving = say.Of("A new progress file is made there, with all that was practised, and practice goes on in it. Nothing is written over.")

func saySaveIn(proposed string) say.Text {
	return say.Of("Type save to keep them in {}, or save and another file.", say.Foreign(proposed))
}

func sayAllKept(path string) say.Text {
	return say.Of("All is kept already, in {}.", say.Foreign(path))
}

func sayNotKept(err error) say.Text { return say.Of("Not kept: {}", say.Foreign(err.Error())) }

// The first run.
var (
	greeted       = say.Of("Five short steps; enter accepts what is marked.")
	greetedAloud  = say.Of("Welcome to sparetone. A few short questions first; stop leaves them for another time.")
	deviceOpening = say.Of("The sound device is opening.")
)

const (
	askGreeting  = "An empty line goes on."
	leadGreeting = "Type a number, or the words after it."
	askSound     = "These are the open strings. Type again, louder or softer; no, if you hear nothing. An empty line goes on."
)

// unheardOf is what the step of sound says where there is none: on the screen, and in lines of text under a title.
type unheardOf struct{ about, title, aloud string }

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

// Questions.
const (
	leadPlacing = "Answer with a number or in words."
	leadBench   = "Type a chord such as \"Cadd9\", or a fret for each string such as \"0003\", or a number, to hear that swap after the plain shape and take it."
)

// askQuestion says what is to be typed.
func askQuestion(asked *practice.Asked, typing bool) string {
	switch {
	case typing:
		return "Type your answer."
	case asked.Form != drills.Choose:
		return say.Of("Type {}.", asked.Typing()).Aloud()
	case asked.Number == 1:
		return "Type a number. help says what else can be typed."
	}
	return ""
}

// leadQuestion begins the help of a question.
func leadQuestion(asked *practice.Asked, typing bool) string {
	switch {
	case asked.Form != drills.Choose:
		return say.Of("Type {}.", asked.Typing()).Aloud()
	case typing:
		return "Type your answer."
	}
	return "Answer with a number or in words."
}

// After an answer.
var (
	askOnward = "An empty line goes on; why says more."
	goesOn    = say.Of("It goes on by itself; a key makes it wait.")
	goesAloud = say.Of("It goes on by itself; a word makes it wait.")
)

// SayAnswers says which numbers of answers there are.
func SayAnswers(n int) say.Text { return say.Of("There are answers 1 to {}.", say.Number(n)) }

var howToPlace = say.Of(leadPlacing + " 0, or an empty line, says that you do not know; stop goes back.")

var howToTry = say.Of("Type a chord, or set fingers with arrows and digits.")

// saySwaps says which numbers of swaps there are.
func saySwaps(n int) say.Text {
	switch n {
	case 0:
		return say.Of("There is no swap from this shape.")
	case 1:
		return say.Of("There is one swap: 1.")
	}
	return say.Of("There are swaps 1 to {}.", say.Number(n))
}

// NothingHere says that a word does nothing where it was typed.
func NothingHere(typed string) string {
	return fmt.Sprintf("%q means nothing here.", theory.Clip(typed))
}

// newTo says what is to be learned of a thing that is called the same in several drills.
var newTo = map[string]string{"shape-name": "to be known by sight", "shape-tones": "string by string", "build": "to be held"}

// somethingNew stands above what is shown before a drill asks it.
func somethingNew(drill string) say.Text {
	if to, ok := newTo[drill]; ok {
		return say.Of("Something new, {}:", say.Words(to))
	}
	return say.Of("Something new, before it is asked:")
}

// sayRow says what is heard of a row of chords, before it is heard.
func sayRow(chords []say.Text) say.Text {
	return say.Of("You hear the key, then the row: {}.", say.Commas(chords...))
}

// sayNew names in lines of text what is shown before it is asked.
func sayNew(drill string, name say.Text) say.Text {
	if to, ok := newTo[drill]; ok {
		return say.Of("Something new, {}: {}.", say.Words(to), name)
	}
	return say.Of("Something new: {}.", name)
}

// Words of the trade.
var doubledSign = say.Of("doubled") // as it stands below a neck

// degreeKey is what the keys are called that enter what a string is.
var degreeKey = say.Of(acts["degree"].Does)

// moreShapes stands above shapes that were not shown yet, of what was asked before.
var moreShapes = say.Of("More shapes, before they are asked:")

// sayMoreShapes says the same in lines of text.
func sayMoreShapes(name say.Text) say.Text { return say.Of("More shapes: {}.", name) }

// askWord says what can be typed where words are listed.
const askWord = "Type a number or a word, to hear it."

func noSuchTerm(word string) say.Text {
	return say.Of("{} is no word that is explained here.", say.Typed(word))
}

// sayAsAnswer says what the answer is to what is heard and seen there, or within a key and chord.
func sayAsAnswer(within, answer say.Text) say.Text {
	if within.IsZero() {
		return say.Of("Here the answer is: {}.", answer)
	}
	return say.Of("{} the answer is: {}.", within, answer)
}

// sayBeside says what a thing is told from.
func sayBeside(other say.Text) say.Text { return say.Of("To be told from: {}.", other) }

// What is said of answers that are played.
var (
	countsSoon   = say.Of("It counts in a moment.")
	askPlayed    = say.Of("Is that what you played? Then play it once more, and it counts.")
	sayTakenBack = say.Of("Taken back.")
	sayGone      = say.Of("Taken back: nothing is kept of that answer.")
	noMoreAlong  = say.Of("No more is listened for.")
	listenFirst  = say.Of("Nothing listens: switch the microphone on first.")
	sayNoAnswer  = say.Of("What was heard is no answer here.")
)

// leadPlayed begins the help where an answer was heard.
const leadPlayed = "This was heard, and does not count yet."

// sayHeard says which answer was heard.
func sayHeard(answer say.Text) say.Text { return say.Of("I heard {}.", answer) }
