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

// valid says what is wrong with an answer that cannot be kept, by its field as an export has it.
func (a Answer) valid() error {
	switch {
	case a.Item == "":
		return errors.New("item is empty")
	case a.Drill == "":
		return fmt.Errorf("drill is empty, of %s", short(a.Item))
	case !a.Result.valid():
		return fmt.Errorf("result is right, partly or wrong, of %s", short(a.Item))
	case a.Choices < 0 || a.Choices == 1 || a.Choices > mostChoices:
		return fmt.Errorf("choices is %d: an answer is one of 2 to %d choices, or of 0 if it was given freely", a.Choices, mostChoices)
	case a.Took < 0:
		return errors.New("took_ms is less than 0")
	case a.Replays < 0:
		return fmt.Errorf("replays is %d, which is less than 0", a.Replays)
	case a.Hints < 0:
		return fmt.Errorf("hints is %d, which is less than 0", a.Hints)
	}
	for _, text := range []struct{ field, is string }{{"session", a.Session}, {"item", a.Item}, {"drill", a.Drill}, {"question", a.Question},
		{"given", a.Given}, {"expected", a.Expected}, {"taken_for", a.TakenFor}, {"voice", a.Voice}} {
		if len(text.is) > longest {
			return fmt.Errorf("%s has %d bytes, and %d are kept", text.field, len(text.is), longest)
		}
		if strings.ContainsFunc(text.is, control) {
			return fmt.Errorf("%s has a control character in it, which is not kept", text.field)
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
