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
	Rung     int           // how closely it was asked, counted from 1, the clearest; 0 if nobody knows
	Lesson   string        // id of the lesson it was asked for; empty if for none
	Step     string        // id of that lesson's step; empty if for none
	Played   bool          // it was played on an instrument or sung; false if it was typed or chosen, or if nobody knows
	Offered  string        // ids of the choices as they stood, parted by Between; empty if it was answered freely, or if nobody knows any more
	Chosen   int           // which of them was answered, counted from 1; 0 if none was
}

const (
	mostChoices = 100            // answers to choose from that are believed
	mostRungs   = 100            // that are believed
	Between     = "|"            // two choices that were offered
	LongestTook = 24 * time.Hour // of a question that was left standing
)

// Valid says what is wrong with an answer that cannot be kept, by its field as an export has it.
func (a Answer) Valid() error {
	switch {
	case a.Item == "":
		return errors.New("item is empty")
	case a.Drill == "":
		return fmt.Errorf("drill is empty, of %s", Short(a.Item))
	case !a.Result.valid():
		return fmt.Errorf("result is right, partly or wrong, of %s", Short(a.Item))
	case a.Choices < 0 || a.Choices == 1 || a.Choices > mostChoices:
		return fmt.Errorf("choices is %d: an answer is one of 2 to %d choices, or of 0 if it was given freely", a.Choices, mostChoices)
	case a.Took < 0:
		return errors.New("took_ms is less than 0")
	case a.Replays < 0:
		return fmt.Errorf("replays is %d, which is less than 0", a.Replays)
	case a.Rung < 0 || a.Rung > mostRungs:
		return fmt.Errorf("rung is %d, and a rung is 1 to %d, or 0 if nobody knows", a.Rung, mostRungs)
	case a.Chosen < 0:
		return fmt.Errorf("chosen is %d, which is less than 0", a.Chosen)
	case a.Hints < 0:
		return fmt.Errorf("hints is %d, which is less than 0", a.Hints)
	}
	for _, text := range []struct{ field, is string }{{"session", a.Session}, {"item", a.Item}, {"drill", a.Drill}, {"question", a.Question},
		{"given", a.Given}, {"expected", a.Expected}, {"taken_for", a.TakenFor}, {"voice", a.Voice}, {"lesson", a.Lesson}, {"step", a.Step}, {"offered", a.Offered}} {
		if len(text.is) > LongestText {
			return fmt.Errorf("%s has %d bytes, and %d are kept", text.field, len(text.is), LongestText)
		}
		if strings.ContainsFunc(text.is, Control) {
			return fmt.Errorf("%s has a control character in it, which is not kept", text.field)
		}
	}
	return nil
}

// Choosable returns the ids of the choices as they stood; nil if it was answered freely, or if nobody knows any more.
func (a Answer) Choosable() []string {
	if a.Offered == "" {
		return nil
	}
	return strings.Split(a.Offered, Between)
}

// Guess returns the chance that an answer is right by guessing alone: 0 if it was given freely.
func (a Answer) Guess() float64 {
	if a.Choices == 0 {
		return 0
	}
	return 1 / float64(a.Choices)
}

// DrillOf returns the drill that an item belongs to: the first part of its id, such as spell of spell/major/ukulele.
func DrillOf(item string) string {
	drill, _, _ := strings.Cut(item, "/")
	return drill
}

// Belongs says what of an answer does not belong together, by its field, and what would be right.
func (a Answer) Belongs() error {
	if want := DrillOf(a.Item); a.Drill != want {
		return fmt.Errorf("drill is %q, but the item %s belongs to the drill %s", Short(a.Drill), Short(a.Item), Short(want))
	}
	if a.TakenFor != "" && DrillOf(a.TakenFor) != a.Drill {
		return fmt.Errorf("taken_for is %s, but an item is taken for another of its own drill, %s/…", Short(a.TakenFor), Short(a.Drill))
	}
	if a.Result == Right && a.TakenFor != "" && a.TakenFor != a.Item {
		return fmt.Errorf("taken_for is %s, but result is right, and what is right is taken for nothing else", Short(a.TakenFor))
	}
	if a.Step != "" && a.Lesson == "" {
		return fmt.Errorf("step is %q, but lesson is empty, and a step is of a lesson", Short(a.Step))
	}
	offered := 0
	if a.Offered != "" {
		offered = strings.Count(a.Offered, Between) + 1
	}
	if offered > 0 && offered != a.Choices {
		return fmt.Errorf("offered has %d choices with %s between them, but choices is %d", offered, Between, a.Choices)
	}
	if a.Chosen > offered {
		return fmt.Errorf("chosen is %d, but offered has %d choices; it is 0 if none of them was answered", a.Chosen, offered)
	}
	if a.Replays > 0 && a.Voice == "" {
		return fmt.Errorf("replays is %d, but voice is empty, and what is silent is not heard again", a.Replays)
	}
	return nil
}
