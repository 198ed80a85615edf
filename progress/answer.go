package progress

import (
	"errors"
	"fmt"
	"strings"
	"time"
)

// Answer is one question and what the student made of it.
type Answer struct {
	Session  string // id of the session it was given in; may be empty
	Item     string
	Drill    string
	Seed     uint64 // makes the same question again
	At       time.Time
	Question string // as it was shown or played
	Given    string
	Expected string
	TakenFor string // item it was mistaken for; "" if none
	Result   Result
	Choices  int           // answers there were to choose from; 0 if it was answered freely, or if nobody knows any more
	Took     time.Duration // from the question standing there to the answer, to the millisecond
	Replays  int           // times the question was heard again
	Hints    int           // hints asked for
	Voice    string        // what it sounded with; "" if it was silent
}

const (
	mostChoices = 100            // answers to choose from that are believed
	longest     = 1000           // bytes that one text of an answer may have; ids are held to it too
	longestTook = 24 * time.Hour // of a question that was left standing
)

// valid says what is wrong with an answer that cannot be kept.
func (a Answer) valid() error {
	switch {
	case a.Item == "":
		return errors.New("an answer needs an item")
	case a.Drill == "":
		return fmt.Errorf("%s: an answer needs a drill", short(a.Item))
	case !a.Result.valid():
		return fmt.Errorf("%s: an answer is right, partly or wrong", short(a.Item))
	case a.Choices < 0 || a.Choices == 1 || a.Choices > mostChoices:
		return fmt.Errorf("%s: an answer is one of 2 to %d choices, or of 0 if it was given freely", short(a.Item), mostChoices)
	case a.Took < 0 || a.Replays < 0 || a.Hints < 0:
		return fmt.Errorf("%s: time, replays and hints cannot be less than nothing", short(a.Item))
	}
	for _, s := range []string{a.Session, a.Item, a.Drill, a.Question, a.Given, a.Expected, a.TakenFor, a.Voice} {
		if len(s) > longest {
			return fmt.Errorf("%s: a text of %d bytes is too long, %d are kept", short(a.Item), len(s), longest)
		}
		if strings.ContainsFunc(s, control) {
			return fmt.Errorf("%q: control characters are not kept", short(a.Item))
		}
	}
	return nil
}

// control reports whether a rune could move a cursor or ring a bell: C0, DEL and C1 of ISO/IEC 6429.
func control(r rune) bool { return r < ' ' || r >= 0x7f && r <= 0x9f || r == '\ufffd' }

// short cuts a text to what fits in an error of one line.
func short(s string) string {
	s = tidy(s)
	if r := []rune(s); len(r) > 80 {
		return string(r[:79]) + "…"
	}
	return s
}
