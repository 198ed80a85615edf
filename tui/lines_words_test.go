package tui

import (
	"context"
	"fmt"
	"io"
	"os"
	"strings"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/drills/practice/session"
	"sparetone/progress"
	"sparetone/synth/playback"
	"sparetone/theory/say"
	"sparetone/tui/lines"
	"sparetone/tui/page/asking"
)

// plainly is what is said to somebody who types some lines, from the opening on.
func plainly(t *testing.T, p practice.App, typed ...string) string {
	t.Helper()
	out := &heardLines{}
	if err := inMemory(lines.Run(context.Background(), p, strings.NewReader(strings.Join(typed, "\n")), out)); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// says checks that sentences are said in turn.
func says(t *testing.T, text string, sentences ...string) {
	t.Helper()
	rest := text
	for _, s := range sentences {
		_, after, found := strings.Cut(rest, s)
		if !found {
			t.Errorf("%q is not said, or not in its turn, in\n%s", s, text)
			return
		}
		rest = after
	}
}

// Help says at each place what works there, and what works everywhere.
func TestPlainHelpIsOfThePlace(t *testing.T) {
	everywhere := "Everywhere: louder"
	p, _ := practiceOf(t, true)
	text := plainly(t, p, "help", "settings", "help", "", "try", "help", "", "drills", "help", "", "course", "help", "", "", "help", "2", "help", "leave", "")
	says(t, text, "ear, for practice by ear only", everywhere, "To change one", everywhere, "Type a chord", everywhere,
		"Type the number or the name of the drill", everywhere, "Type the number of a chapter", everywhere,
		"Answer with a number or in words", everywhere, "An empty line goes on. Or type:", everywhere)
	if strings.Contains(text, "hear it again") {
		t.Errorf("where nothing sounds it cannot be heard again:\n%s", text)
	}
	p, _ = practiceOf(t, true)
	p.New = true
	says(t, plainly(t, p, "help", "", "", "", "5", "help", "leave", ""),
		"An empty line takes what is set", everywhere, "Finding out, question 1", "says that you do not know", everywhere)
}

// What is typed or dictated is understood, and what is not is said as it was typed.
func TestPlainUnderstands(t *testing.T) {
	p, _ := practiceOf(t, true)
	text := plainly(t, p,
		"settings", "volume", "7", "hand left", "volume: 3", "volume=4", "Capo = 2.", "capo 1000", "a4", "tuning ukulele with", "tuning", "x!", "banjo-double-c", "movement off", "tuning uke", "capo 0", "stop",
		"try", "X", "4 2", "x003", "",
		"drills", "nothing", "name a shape by sight", "open two three one", "", "Stop.", "drills", "shape name", "2.", "exit", "")
	says(t, text,
		"Volume: 5.", "It may be: 0 to 10.", "Volume is now 7.", "Hand is now left-handed.", "Volume is now 3.", "Volume is now 4.", "Capo is now 2.",
		`"1000" is no whole number`, "415 to 466", "Instrument is now ukulele with a low fourth string, G C E A.", "banjo", "Instrument is now five-string banjo in double C, high g C G C D.", `"movement" is no setting here.`,
		`"X" is for 1 string`, `"4 2" is for 2 strings`, "Frets x 0 0 3.",
		`"nothing" means nothing here`, "Question 1.", `"open two three one" is not an answer here`, "Type an answer, “I don't know” or help.", "Nothing was asked", "Question 1.", "1 question, ")
	for _, screen := range []string{"movement:", "colours:", "drawn on"} {
		if strings.Contains(text, screen) {
			t.Errorf("%q is of the screen", screen)
		}
	}
}

// The settings hold for the next question, however they are left.
func TestPlainSettingsHoldAtOnce(t *testing.T) {
	for _, way := range []string{"", "stop"} {
		p, _ := practiceOf(t, true)
		text := plainly(t, p, "settings", "tuning guitar", way, "drills", "shape-name", "leave", "")
		says(t, text, "Question 1.", "low E string")
	}
}

// A line that was not ended is no answer.
func TestPlainUnfinishedLine(t *testing.T) {
	p, _ := practiceOf(t, true)
	says(t, plainly(t, p, "", "1"), "Question 1.", "Nothing was asked this time")
	if health, err := p.File().Check(); err != nil || health.Answers != 0 {
		t.Errorf("%d answers, %v", health.Answers, err)
	}
}

// Going back from finding out asks again what it was for.
func TestPlainBackFromFindingOut(t *testing.T) {
	p, _ := practiceOf(t, true)
	p.New = true
	title := practice.Greetings[practice.StepLevel].Title
	says(t, plainly(t, p, "2", "", "", "5", "stop", "leave", ""),
		"Set to ukulele with a low fourth string, G C E A.", title, "Finding out, question 1", title+"\n1: ")
}

// Whoever hears nothing says so, and where there is no device nobody is told to make it louder.
func TestPlainHearsNothing(t *testing.T) {
	p, _ := practiceOf(t, false)
	p.New = true
	text := plainly(t, p, "", "", "perhaps", "No.", "", "", "ear", "leave", "")
	says(t, text, "no, if you hear nothing", `"perhaps" means nothing here`, "only questions for the eye are asked, until you leave", "There is nothing to ask: no drill")
	p, _ = practiceOf(t, false)
	p.New = true
	p.Speaker.(*fakeSpeaker).turn(playback.NoDevice, "none opens")
	if text := plainly(t, p, "", "", "leave", ""); !strings.Contains(text, "3 of 5. There is no sound here.") || strings.Contains(text, "comfortable") {
		t.Errorf("without a device it says\n%s", text)
	}
}

// All shapes of what was asked are read out, and none of what was answered.
func TestPlainReadsAllThatWasAsked(t *testing.T) {
	for id, want := range map[string]int{
		"same-or-not": 2, "progression-ear": 3, "resolve": 2, "added-ear": 2, "swap": 2,
		"chord-ear": 1, "shape-name": 1, "build": 1, "shape-tones": 1,
	} {
		for _, right := range []bool{true, false} {
			v := revealed(t, id, right).place.(*asking.Reveal).Verdict
			if got := len(v.AskedShapes()); got < want || got > want && id != "progression-ear" {
				t.Errorf("%s, answered right: %v: %d shapes of %d, not %d", id, right, got, len(v.Shapes), want)
			}
		}
	}
	p, _ := practiceOf(t, false)
	says(t, plainly(t, p, "drills", "resolve", "1", "why", "", "leave", ""), "Question 1.", "It needs practice", "You hear", "suspended", "A string", "Then ", "A string", "Why now:", "Question 2.")
}

// Weak spots come the most frequent first.
func TestPlainWeakIsWorstFirst(t *testing.T) {
	p := withHistory(t).App
	once := progress.Answer{
		Session: progress.NewID(), Item: drills.ItemID("chord-ear", "major", "ukulele"), Drill: "chord-ear", At: p.Setup.Now(),
		Result: progress.Wrong, TakenFor: drills.ItemID("chord-ear", "minor", "ukulele"), Took: time.Second,
	}
	if err := p.File().Begin(progress.Session{ID: once.Session, Began: once.At, Minutes: time.Minute}); err != nil {
		t.Fatal(err)
	}
	if err := p.File().Record(once); err != nil {
		t.Fatal(err)
	}
	text := plainly(t, p, "weak", "", "leave", "")
	says(t, text, "was taken for “major” 14 times out of 21.", "“Major” was taken for “minor” once, out of 22.", "Type a number to practise that pair")
}

// Where the session was a part of practice, tomorrow is of that part, and says so.
func TestTomorrowOfAPart(t *testing.T) {
	p, _ := practiceOf(t, true)
	text := plainly(t, p, "drills", "shape-name", "I don't know", "leave", "")
	says(t, text, "Of this part 1 thing needs practice tomorrow.")
	p, _ = practiceOf(t, true)
	says(t, plainly(t, p, "", "I don't know", "leave", ""), " Tomorrow 1 thing needs practice.")
}

// An interrupt ends the practice as leave does: it is summed up, and the session is ended.
func TestPlainInterrupted(t *testing.T) {
	p, _ := practiceOf(t, true)
	in, typed := io.Pipe()
	out := &heardLines{}
	ended := make(chan error, 1)
	go func() { ended <- inMemory(lines.Run(context.Background(), p, in, out)) }()
	fmt.Fprintln(typed)
	out.await(t, `Question 1\.`, 1)
	fmt.Fprintln(typed, "I don't know")
	out.await(t, "It needs practice", 1)
	self, err := os.FindProcess(os.Getpid())
	if err == nil {
		err = self.Signal(os.Interrupt)
	}
	if err != nil {
		t.Skip("no interrupt can be sent here: ", err)
	}
	if err := <-ended; err != nil {
		t.Error(err)
	}
	says(t, out.String(), "1 question, 0 right.")
	sessions, err := p.File().Sessions()
	if err != nil || len(sessions) != 1 || sessions[0].Ended.IsZero() {
		t.Errorf("sessions: %+v, %v", sessions, err)
	}
}

// Before the answer it is not said why a question comes where that could tell which choice is right.
func TestWhyIsForAfterTheAnswer(t *testing.T) {
	if got, want := session.WhyNow(&session.Asked{Why: say.Of("it is new")}).Screen(), "Why now: it is new."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := session.WhyNow(&session.Asked{Why: say.Of("you just took “the minor third” for it"), Tells: true}).Screen(); strings.Contains(got, "third") {
		t.Errorf("%q tells", got)
	}
	p, _ := practiceOf(t, true)
	text := plainly(t, p, "drills", "shape-name", "why", "I don't know", "why", "", "stop", "leave", "")
	says(t, text, "Why it is asked now is told after the answer: before it, that could give the answer away.", "Why now: it is new.")
}

// On the bench nothing is said of sound where none was asked for, and one swap is not "1 to 1".
func TestPlainBenchWithoutSound(t *testing.T) {
	p, _ := practiceOf(t, true)
	text := plainly(t, p, "try", "0001", "2", "C", "1", "shape", "", "leave", "")
	says(t, text, "There is one swap: 1.", "Frets 0 0 0 3.", "It came from C.")
	if strings.Contains(text, "nothing to hear") {
		t.Errorf("sound is spoken of though none was asked for:\n%s", text)
	}
	p, _ = practiceOf(t, true)
	says(t, plainly(t, p, "try", "again", "", "leave", ""), "There is nothing to hear here.")
}

// What is mistyped in the first run costs one line and not the list of instruments once more, of which only the first are said unasked.
func TestAFirstRunIsNotToldTwice(t *testing.T) {
	p, _ := practiceOf(t, true)
	p.New = true
	text := plainly(t, p, "ba", "77", "more", "guitar", "9", "", "stop")
	says(t, text, "What do you play?", "9: tenor guitar", "more says the other 12.", "is only the beginning of baritone", "An empty line takes ukulele", "There are answers 1 to 21.",
		"21: bass guitar", "Set to guitar", "2 of 5.", "There are answers 1 to 2.", "Set to right-handed", "3 of 5.")
	for _, once := range []string{"Welcome to sparetone", "1: ukulele, high g", "What do you play?", "1: right-handed"} {
		if n := strings.Count(text, once); n != 1 {
			t.Errorf("%q is said %d times in\n%s", once, n, text)
		}
	}
}

// Strings that somebody named on the command line, or typed, are what the first run offers first; an empty line leaves them.
func TestAFirstRunKeepsTypedStrings(t *testing.T) {
	p, _ := practiceOf(t, true)
	p.New, p.Settings.Tuning = true, "D3 A3 D4"
	text := plainly(t, p, "", "stop")
	says(t, text, "1: strings D 3 A 3 D 4", "2: ukulele, high g", "An empty line takes strings D 3 A 3 D 4.", "Set to strings D 3 A 3 D 4.", "2 of 5.")
	p, _ = practiceOf(t, true)
	p.New = true
	says(t, plainly(t, p, "G3 D4 A4", "back", "", "stop"), "Set to strings G 3 D 4 A 4.", "1: strings G 3 D 4 A 4", "An empty line takes strings G 3 D 4 A 4.")
}
