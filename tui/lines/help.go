package lines

import (
	"fmt"
	"strings"

	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/theory"
)

// What help says at each place: what works there. What works at all of them comes after it.
const (
	helpGreeting = "An empty line goes on. stop leaves these questions for another time."
	helpSound    = "An empty line goes on. again plays the open strings again; no says that you hear nothing; stop leaves these questions for another time."
	helpChoice   = "Type a number, or the words after it. An empty line takes what is set. stop leaves these questions for another time."
	helpToday    = "An empty line begins today's practice. ear is practice by ear only; eye, by eye only; weak says what you mistake for what; drills lists the drills, to practise one; " +
		"course lists the steps of the course, to practise one; try says what any chord or shape is; settings says what is set and changes it."
	helpBench = "Type a chord such as \"Cadd9\", or a fret for each string such as \"0003\". Then: again, picked, apart; a number, to hear that swap after the plain shape and take it; " +
		"both, to hear the two once more; back, to undo it; shape, for another shape; name, for another name of this one. An empty line goes back."
	helpSettings = "To change one, type its name and what it is to be, such as: capo 2. Its name alone says what it may be. An empty line goes back."
	helpWaiting  = "It goes on by itself when there is some. stop ends this practice, leave the program."
	helpUnkept   = "save keeps practice in a new file, save and a path in that file. leave ends the program without it."
)

// helpPlacing is what works while it is found out what is known, with a word on what is heard if anything is.
func helpPlacing(heard bool) string {
	words := "Answer with a number or in words. 0, or an empty line, says that you do not know; "
	if heard {
		words += "again plays it again; "
	}
	return words + "stop goes back."
}

// helpQuestion is what works at a question.
func (t *plain) helpQuestion(asked *practice.Asked) string {
	answer := "Answer with a number or in words"
	switch {
	case asked.Form != drills.Choose:
		answer = "Type " + asked.Typing().Aloud()
	case t.Settings.Typing:
		answer = "Type your answer"
	}
	words := []string{answer + ", or: I don't know. Or type: " + t.helpSounds(asked.Sounds) + "why, for why it is asked now"}
	if t.sounds() {
		words = append(words, "hear and a fret for each string, to hear a shape")
	}
	return strings.Join(append(words, "stop, to end this practice."), "; ")
}

// helpAnswered is what works after an answer.
func (t *plain) helpAnswered(v drills.Verdict) string {
	words := "An empty line goes on. Or type: " + t.helpSounds(v.Asked)
	if len(v.Other) > 0 && t.sounds() {
		words += "both, to hear what was asked and what you answered; "
	}
	return words + "why, for why it was asked now; stop, to end this practice."
}

// helpSounds is what can be done with sounds.
func (t *plain) helpSounds(sounds []drills.Sound) string {
	if len(sounds) == 0 || !t.sounds() {
		return ""
	}
	words := "again, to hear it again; slower; open, to hear it string by string; "
	if practice.Rooted(sounds) {
		words += "open root, to hear the root first; "
	}
	return words
}

// sounds reports whether there is a way to hear anything.
func (t *plain) sounds() bool { return !t.Setup.Silent && !t.Deviceless }

// helpEverywhere is what works at all places.
func (t *plain) helpEverywhere() string {
	words := "Everywhere: louder; softer; help; leave, to end the program"
	if !t.isKept() {
		words += "; save, to keep in a new file what is not kept"
	}
	return words + "."
}

// nothingHere says that a word does nothing where it was typed.
func nothingHere(typed string) string {
	return fmt.Sprintf("%q means nothing here.", theory.Clip(typed))
}
