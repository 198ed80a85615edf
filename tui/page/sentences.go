package page

import (
	"errors"
	"fmt"

	"sparetone/drills/practice"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// What is said at several places, beside the facts that go into it. What acts are called stands in acts.go.

// Title is what a place is called on the screen.
func Title(name string) Block { return Seen{Text: say.Of(name), Tone: Strong} }

// Failing says why something could not go on.
func Failing(err error) []Block {
	why := practice.SentenceOf(err)
	return []Block{Seen{Text: say.Of("✗ {}", why), Tone: Wrong}, Aloud(why)}
}

// Misfit says what is wrong with what was typed. Frets that do not fit are named as they were typed.
func Misfit(typed string, err error) Next {
	if m := (*fret.MisfitError)(nil); errors.As(err, &m) {
		return Next{Said: say.Of("{}{}.", say.Typed(typed), say.Words(m.Why)), Wrong: true}
	}
	return Mistyped(err)
}

// NothingToHear is why an act that sounds does nothing.
var NothingToHear = say.Of("There is nothing to hear here.")

// AskGoOn is what can be typed where there is only to go on.
const AskGoOn = "An empty line goes on."

// NothingHere says that a word does nothing where it was typed.
func NothingHere(typed string) string {
	return fmt.Sprintf("%q means nothing here.", theory.Clip(typed))
}

// SayAnswers says which numbers of answers there are.
func SayAnswers(n int) say.Text { return say.Of("There are answers 1 to {}.", say.Number(n)) }

// SayMarked says that the line of a choice is marked, and how it is taken.
func SayMarked(line say.Text) say.Text { return say.Of("Marked: {}. Enter goes on.", line) }

// Everywhere.

func sayVolume(n int) say.Text { return say.Of("Volume {} of 10.", say.Number(n)) }

func sayVolumeUnkept(n int, err error) say.Text {
	return say.Of("Volume {} of 10, not kept: {}.", say.Number(n), say.Ended(say.Said(err)))
}

// What is said when the microphone is switched.
var (
	nowListening    = say.Of("The microphone is switched on. Nothing of it is kept. Stop listening switches it off.")
	noMoreListening = say.Of("The microphone is switched off.")
)

// byEyeOnly is what follows of there being no sound.
const byEyeOnly = "only questions for the eye."

func sayNoSound(reason, follows string) say.Text {
	return say.Of("No sound ({}): {}", say.Foreign(reason), say.Words(follows))
}

// aboutSaving says what saving does.
var aboutSaving = say.Of("A new progress file is made there, with all that was practised, and practice goes on in it. Nothing is written over.")

func sayAllKept(path string) say.Text {
	return say.Of("All is kept already, in {}.", say.Foreign(path))
}

// askPrompt is what can be typed where one thing is asked for.
const askPrompt = "Type it, or stop, to go back."

// Fingers and degrees.

var noSuchFret = say.Of("That string has no such fret.")

// Words of the trade.

var doubledSign = say.Of("doubled") // as it stands below a neck

// degreeKey is what the keys are called that enter what a string is.
var degreeKey = say.Of(acts["degree"].Does)

// askWord says what can be typed where words are listed.
const askWord = "Type a number or a word, to hear it."

func noSuchTerm(word string) say.Text {
	return say.Of("{} is no word that is explained here.", say.Typed(word))
}

// sayFingers says which finger goes where, in the tuning's order.
func sayFingers(v fret.Voicing) say.Text {
	var stops []say.Text
	fingers := v.Fingers()
	for i, s := range v.Strings {
		if fingers != nil && fingers[i] > 0 {
			stops = append(stops, say.Of("finger {} on the {} string, fret {}", say.Number(fingers[i]), say.String{On: v.Tuning, Number: s.Number}, say.Number(s.Fret)))
		}
	}
	switch {
	case stops != nil:
		return say.Of("{}", say.Clauses(stops...))
	case fingers != nil:
		return noFinger
	}
	return noHand
}

// What is said where no finger is to be told of.
var (
	noFingers = say.Of("Fingers are not told any more.")
	noFinger  = say.Of("no finger is needed")
	noHand    = say.Of("no fingering is known")
)

// HelpWaiting is what works while a question waits for sound.
const HelpWaiting = "It goes on by itself when there is some. stop ends this practice, leave the program."

// askSaving is what is asked where practice is to be saved elsewhere.
var askSaving = say.Of("Where is practice to be saved?")
