package home

import (
	"strings"

	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/drills/practice/setting"
	"sparetone/theory/say"
	"sparetone/tui/page"
)

// Today.

// What places are called on the screen.
const (
	titleAllAnswers   = "All answers"
	titleDoneForNow   = "Done for now"
	titleLessons      = "Lessons"
	titleOneDrill     = "One drill"
	titleSettings     = "Settings"
	titleTheCourse    = "The course"
	titleToday        = "Today"
	titleTune         = "Tune"
	titleWeakSpots    = "Weak spots"
	titleWhatWasFound = "What was found"
	titleWhatYouKnow  = "What you know"
)

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

// byEarAndEye is said where all of practice is chosen again.
var byEarAndEye = say.Of("By ear and eye.")

// sayWrong and sayRight are sentences with the sign that says it as well.
func sayWrong(what string) say.Text   { return say.Of("✗ {}", say.Foreign(what)) }
func sayRight(what say.Text) say.Text { return say.Of("✓ {}", what) }

const askDrill = "Type the number or the name of the drill to practise."

func sayDrill(about drills.About) say.Text {
	return say.Of("{} ({})", say.Words(about.Title), say.Words(about.ID))
}

// The course, and what is known.

// What is to be typed in lists of the course, and where something was found.
const (
	askChapter = "Type the number of a chapter to open it."
	askPart    = "Type the number of a part to open it."
	askThing   = "Type the number of a thing to hear and see it again."
	askFound   = "An empty line begins there; stop leaves it as it was."
)

// sayPractisedIn names the drill of a part of the course.
func sayPractisedIn(drill drills.About) say.Text {
	return say.Of("Practised in “{}”.", say.Words(drill.Title))
}

// aboutKinds stands above the map of kinds.
var aboutKinds = say.Of("The kinds of chord: whether you hear them, name and build their shapes, and know their tones.")

// askWeak is what can be typed where all else is only said.
const askWeak = "Type weak for what you mistake for what."

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

// Settings and tuning.

const askSetting = "To change one, type its name and what it is to be, such as: capo 2. Its name alone says what it may be."

func saySetting(s *setting.Values, k setting.Setting) say.Text {
	return say.Of("{}: {}. {}", k.Title, k.Long(k.Get(s)), k.Explained(s))
}

func sayMay(s *setting.Values, k *setting.Setting) say.Text {
	return say.Of("{} is {}. It may be: {}.", k.Title, k.Long(k.Get(s)), k.May())
}

func sayNow(s *setting.Values, k *setting.Setting) say.Text {
	return say.Of("{} is now {}.", k.Title, k.Long(k.Get(s)))
}

func saySet(s *setting.Values, k *setting.Setting) say.Text {
	return say.Of("Set to {}.", k.Long(k.Get(s)))
}

func sayNoSetting(typed string) say.Text { return say.Of("{} is no setting here.", say.Typed(typed)) }

const askTuning = "Pluck one string after another: each is said when it was heard."

// What is said where the tuner does not listen.
var (
	notListening      = say.Of("The microphone is off: ctrl+l switches it on.")
	notListeningAloud = say.Of("The microphone is off: listen switches it on.")
)

// Lessons, and what is handed in.

// What can be typed where lessons are.
const (
	askLessons     = "Type a number to look at a lesson, or take and a file."
	askFirstLesson = "Type take and a file to take a lesson."
)

// askLesson is what can be typed on the page of a lesson.
var askLesson = map[practice.LessonState]string{
	practice.LessonRuns: "Type practise to begin, or give up to give it up.",
	practice.LessonDone: "It can be given up: type give up.",
	practice.LessonOver: "It can be given up: type give up.",
	practice.LessonLeft: "Type take up to go on with it.",
}

// What is said of lessons.
var (
	askLessonFile   = say.Of("Which file?")
	noLessons       = say.Of("No lesson was taken yet. A lesson is a file from your teacher; from when it is taken it is today's practice, until it is due or done.")
	aboutLessonFile = say.Of("A lesson in TOML. It is kept whole, so the file may go.")
)

func sayTakenUp(lesson string) say.Text {
	return say.Of("“{}” is today's practice now.", say.Foreign(lesson))
}

func sayGoesOn(lesson string) say.Text { return say.Of("“{}” goes on.", say.Foreign(lesson)) }

// sayGivesUp is said before a lesson is given up.
func sayGivesUp(lesson string) say.Text {
	return say.Of("Once more gives “{}” up. Its answers stay, and it can be taken up again.", say.Foreign(lesson))
}

func sayGivenUp(lesson string) say.Text { return say.Of("“{}” is given up.", say.Foreign(lesson)) }

// What is said of handing in.
var (
	askName     = say.Of("What is your name?")
	titleHandIn = say.Of("A file for your teacher")
	aboutName   = say.Of("It goes into what you hand in, so that your teacher knows whose it is. You need not say one; you are asked this once.")
	aboutHandIn = say.Of("Settings stay here, and nothing is sent: the file is written on this machine, and you give it to your teacher. Where is it to go?")
)

// What an empty line does where something is handed in.
const (
	noName        = "An empty line says none"
	takesProposed = "An empty line takes "
)

// sayHandIn says what is in a file for the teacher, and where it goes.
func sayHandIn(says []say.Text) say.Text { return say.Of("{} {}", say.Row(says...), aboutHandIn) }

// The end of a practice.

// soundsOfToday stands above the sounds of a session.
var soundsOfToday = say.Of("To hear once more:")

// askEnding says what can be typed at the end of a practice: sounds is how many can be heard again, chord whether today's can be, song whether it
// leads back to one.
func askEnding(sounds int, chord, song bool) string {
	out := ""
	if sounds > 0 {
		out = "Type a number to hear that sound again. "
	}
	if chord {
		out += "Type chord to hear today's chord. "
	}
	to := "today's practice"
	if song {
		to = "the song"
	}
	return out + "An empty line goes back to " + to + "; answers lists all answers."
}

// sayBackTo names the song that one is back at.
func sayBackTo(song say.Text) say.Text { return say.Of("Back to “{}”.", song) }

func saySaveIn(proposed string) say.Text {
	return say.Of("Type save to keep them in {}, or save and another file.", say.Foreign(proposed))
}

// The first run.

// What is said in the first run.
var (
	welcome       = say.Of("Welcome to sparetone")
	beginThere    = say.Of("begin there")
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

func sayFinding(n int) say.Text { return say.Of("Finding out: question {}", say.Number(n)) }

// sayFindingAloud asks in lines of text.
func sayFindingAloud(n int, prompt say.Text) say.Text {
	return say.Of("Finding out, question {}. {}", say.Number(n), prompt)
}

// unheardOf is what the step of sound says where there is none: on the screen, and in lines of text under a title.
type unheardOf struct{ about, title, aloud string }

// The two cases of no sound.
var (
	soundOff  = unheardOf{"Sound is off, as you asked: practice is by eye only.", "Sound is off, as you asked.", "Only questions for the eye are asked."}
	soundless = unheardOf{"There is no sound here. Practice is by eye until there is; space tries again.", "There is no sound here.", "Only questions for the eye are asked until there is."}
)

// greetingsAloud is what steps are about in lines of text, where the screen speaks of keys and drawings.
var greetingsAloud = map[int]string{
	stepInstrument:     "Shapes are for it; strings in pairs, as on a mandolin, count as one. You can change this later, like everything here.",
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

func sayNotKept(err error) say.Text { return say.Of("Not kept: {}", say.Foreign(err.Error())) }
