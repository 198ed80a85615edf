package progress

import (
	"encoding/hex"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"time"
)

// How sessions and answers are written down to be taken elsewhere. As JSON lines there is an object a
// line, of the kind session or answer; as CSV (RFC 4180) a row for each answer, and sessions are left
// out. Fields may come in any order, and ones that are not known are passed over. Both ask for the same fields of an answer,
// and say the same of one that is wrong.

// sessionLine is a session as it is exported.
type sessionLine struct {
	Kind string `json:"kind"` // session
	ID   string `json:"id"`
	whoseLine
	Began   time.Time  `json:"began"`
	Ended   *time.Time `json:"ended,omitempty"`
	Minutes float64    `json:"minutes"` // asked for
	Doubted bool       `json:"doubted,omitempty"`
}

// whoseLine says whose practice a line of an export is of. Every line has it, since a file may be put together from several.
type whoseLine struct {
	File  string `json:"file"`            // id of the progress file; exports of earlier versions have none
	Whose string `json:"whose,omitempty"` // name of the student; left out if none was given
}

// answerLine is an answer as it is exported.
type answerLine struct {
	Kind     string `json:"kind"` // answer
	ID       string `json:"id"`   // 32 hexadecimal digits, the same wherever the answer goes
	Session  string `json:"session"`
	Item     string `json:"item"`
	Drill    string `json:"drill"`
	Seed     uint64 `json:"seed,string"` // text, because not every reader of JSON holds 64 bits
	At       string `json:"at"`          // RFC 3339, UTC, to the millisecond
	Day      string `json:"day"`         // practice day where the student was, such as 2026-03-04
	Question string `json:"question"`
	Given    string `json:"given"`
	Expected string `json:"expected"`
	TakenFor string `json:"taken_for"`
	Result   string `json:"result"` // right, partly or wrong
	TookMS   int64  `json:"took_ms"`
	Replays  int    `json:"replays"`
	Hints    int    `json:"hints"`
	Voice    string `json:"voice"`
	Choices  int    `json:"choices"` // to choose from; 0 or left out if it was answered freely
	whoseLine
	Doubted bool `json:"doubted"` // its time cannot be true; whoever takes it in judges anew
	judged  bool // the export says whether it is doubted; those of earlier versions do not
}

const (
	mostAway = 2 // days between a time, in UTC, and the practice day it fell on

	dateForm = "2006-01-02"
	timeForm = "2006-01-02T15:04:05.000Z"
)

func (k kept) line() answerLine {
	return answerLine{
		Kind: "answer", ID: hex.EncodeToString(k.ID[:]), Session: k.Session, Item: k.Item, Drill: k.Drill, Seed: k.Seed,
		At: written(k.At).UTC().Format(timeForm), Day: written(k.Day.Date()).Format(dateForm),
		Question: k.Question, Given: k.Given, Expected: k.Expected, TakenFor: k.TakenFor,
		Result: k.Result.String(), TookMS: k.Took.Milliseconds(), Replays: k.Replays, Hints: k.Hints, Voice: k.Voice, Choices: k.Choices,
		Doubted: k.doubted,
	}
}

// kept checks an exported answer and turns it back.
func (l answerLine) kept() (k kept, err error) {
	id, err := hex.DecodeString(l.ID)
	if err != nil || len(id) != len(k.ID) {
		return k, fmt.Errorf("id is 32 hexadecimal digits, not %q", short(l.ID))
	}
	copy(k.ID[:], id)
	at, err := time.Parse(time.RFC3339, l.At)
	if err != nil {
		return k, fmt.Errorf("at is a time such as 2026-03-04T18:30:00.000Z, not %q", short(l.At))
	}
	date, err := time.Parse(dateForm, l.Day)
	if err != nil {
		return k, fmt.Errorf("day is a date such as 2026-03-04, not %q", short(l.Day))
	}
	at = written(at.UTC())
	k.Day = DayOf(written(date.Add(12 * time.Hour)))
	if away := k.Day - DayOf(at); away < -mostAway || away > mostAway {
		return k, fmt.Errorf("day is %s, and that is not the practice day of %s anywhere", l.Day, l.At)
	}
	if l.TookMS < 0 || l.TookMS > longestTook.Milliseconds() {
		return k, fmt.Errorf("took_ms is %d, and a question stands for %d at most, which is a day, and no less than 0", l.TookMS, longestTook.Milliseconds())
	}
	result, err := parseResult(l.Result)
	if err != nil {
		return k, err
	}
	k.Answer = Answer{
		Session: l.Session, Item: l.Item, Drill: l.Drill, Seed: l.Seed, At: at,
		Question: l.Question, Given: l.Given, Expected: l.Expected, TakenFor: l.TakenFor,
		Result: result, Took: time.Duration(l.TookMS) * time.Millisecond, Replays: l.Replays, Hints: l.Hints, Voice: l.Voice, Choices: l.Choices,
	}
	if err := k.valid(); err != nil {
		return k, err
	}
	return k, k.belongs()
}

// columns are the columns of a CSV export.
var columns = []column{
	text("id", func(l *answerLine) *string { return &l.ID }),
	text("session", func(l *answerLine) *string { return &l.Session }),
	text("item", func(l *answerLine) *string { return &l.Item }),
	text("drill", func(l *answerLine) *string { return &l.Drill }),
	number("seed", func(l *answerLine) *uint64 { return &l.Seed }),
	text("at", func(l *answerLine) *string { return &l.At }),
	date("day", func(l *answerLine) *string { return &l.Day }),
	text("question", func(l *answerLine) *string { return &l.Question }),
	text("given", func(l *answerLine) *string { return &l.Given }),
	text("expected", func(l *answerLine) *string { return &l.Expected }),
	text("taken_for", func(l *answerLine) *string { return &l.TakenFor }),
	text("result", func(l *answerLine) *string { return &l.Result }),
	number("took_ms", func(l *answerLine) *int64 { return &l.TookMS }),
	number("replays", func(l *answerLine) *int { return &l.Replays }),
	number("hints", func(l *answerLine) *int { return &l.Hints }),
	text("voice", func(l *answerLine) *string { return &l.Voice }),
	laterOn(number("choices", func(l *answerLine) *int { return &l.Choices })),
	laterOn(text("file", func(l *answerLine) *string { return &l.File })),
	laterOn(text("whose", func(l *answerLine) *string { return &l.Whose })),
	laterOn(flag("doubted", func(l *answerLine) *bool { return &l.Doubted }, func(l *answerLine) *bool { return &l.judged })),
}

// column is a field of an answer: a column of CSV, and a field of a JSON object.
type column struct {
	name  string
	form  form
	get   func(*answerLine) string
	set   func(*answerLine, string) error
	later bool // exports of earlier versions have no such column
}

// form is what kind of value a field has.
type form int

const (
	ofText       form = iota // text
	ofDate                   // text, which in CSV is not guarded: it is read however a spreadsheet writes it
	ofNumber                 // a whole number
	ofLongNumber             // a whole number of 64 bits, in JSON as text
	ofFlag                   // true or false
)

// columnNamed returns the column of a name.
func columnNamed(name string) (column, bool) {
	for _, c := range columns {
		if c.name == name {
			return c, true
		}
	}
	return column{}, false
}

func laterOn(c column) column {
	c.later = true
	return c
}

func text(name string, of func(*answerLine) *string) column {
	return column{
		name: name,
		get:  func(l *answerLine) string { return *of(l) },
		set:  func(l *answerLine, s string) error { *of(l) = s; return nil },
	}
}

func date(name string, of func(*answerLine) *string) column {
	c := text(name, of)
	c.form = ofDate
	return c
}

func number[N int | int64 | uint64](name string, of func(*answerLine) *N) column {
	c := column{
		name: name,
		form: ofNumber,
		get:  func(l *answerLine) string { return fmt.Sprint(*of(l)) },
		set: func(l *answerLine, s string) error {
			if strings.Trim(s, "-0123456789") != "" || json.Unmarshal([]byte(s), of(l)) != nil {
				return fmt.Errorf("%s is a whole number that fits, not %q", name, short(s))
			}
			return nil
		},
	}
	if _, long := any(N(0)).(uint64); long {
		c.form = ofLongNumber
	}
	return c
}

// flag is a column of what is so or is not. A spreadsheet may have put it in the words of a country: then it says nothing.
func flag(name string, of func(*answerLine) *bool, said func(*answerLine) *bool) column {
	return column{
		name: name,
		form: ofFlag,
		get:  func(l *answerLine) string { return strconv.FormatBool(*of(l)) },
		set: func(l *answerLine, s string) error {
			*of(l), *said(l) = strings.EqualFold(s, "true"), strings.EqualFold(s, "true") || strings.EqualFold(s, "false")
			return nil
		},
	}
}
