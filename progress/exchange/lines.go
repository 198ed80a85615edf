package exchange

import (
	"encoding/hex"
	"fmt"
	"time"

	"sparetone/progress"
	"sparetone/progress/clock"
	"sparetone/progress/tables"
)

// How sessions and answers are written down to be taken elsewhere. As JSON lines there is an object a
// line, of the kind session, song or answer; as CSV (RFC 4180) a row for each answer, and sessions and songs are left
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
	Choices  int    `json:"choices"`          // to choose from; 0 or left out if it was answered freely
	Rung     int    `json:"rung"`             // how closely it was asked, counted from 1, the clearest; 0 or left out if nobody knows
	Lesson   string `json:"lesson,omitempty"` // id of the lesson it was asked for; left out if for none
	Step     string `json:"step,omitempty"`   // id of that lesson's step
	Played   int    `json:"played,omitempty"` // 1 if it was played or sung; 0 or left out if it was typed, or if nobody knows; true and false are translated by spreadsheets
	whoseLine
	Doubted bool `json:"doubted"` // its time cannot be true; whoever takes it in judges anew
	judged  bool // the export says whether it is doubted; those of earlier versions do not
}

// mostAway is how many days may lie between a time, in UTC, and the practice day it fell on.
const mostAway = 2

// timeForm is how a time is written down: RFC 3339, UTC, to the millisecond.
const timeForm = "2006-01-02T15:04:05.000Z"

// lineOf returns an answer as it is exported, but for whose it is.
func lineOf(k tables.AnswerRow, doubted bool) answerLine {
	l := answerLine{
		Kind: "answer", ID: hex.EncodeToString(k.ID[:]), Session: k.Session, Item: k.Item, Drill: k.Drill, Seed: k.Seed,
		At: clock.Writable(k.At).UTC().Format(timeForm), Day: clock.Writable(k.Day.Date()).Format(time.DateOnly),
		Question: k.Question, Given: k.Given, Expected: k.Expected, TakenFor: k.TakenFor,
		Result: k.Result.String(), TookMS: k.Took.Milliseconds(), Replays: k.Replays, Hints: k.Hints, Voice: k.Voice, Choices: k.Choices, Rung: k.Rung, Lesson: k.Lesson, Step: k.Step,
		Doubted: doubted,
	}
	if k.Played {
		l.Played = 1
	}
	return l
}

// kept checks an exported answer and turns it back.
func (l answerLine) kept() (k tables.AnswerRow, err error) {
	id, err := hex.DecodeString(l.ID)
	if err != nil || len(id) != len(k.ID) {
		return k, fmt.Errorf("id is 32 hexadecimal digits, not %q", progress.Short(l.ID))
	}
	copy(k.ID[:], id)
	at, err := time.Parse(time.RFC3339, l.At)
	if err != nil {
		return k, fmt.Errorf("at is a time such as 2026-03-04T18:30:00.000Z, not %q", progress.Short(l.At))
	}
	date, err := time.Parse(time.DateOnly, l.Day)
	if err != nil {
		return k, fmt.Errorf("day is a date such as 2026-03-04, not %q", progress.Short(l.Day))
	}
	at = clock.Writable(at.UTC())
	k.Day = progress.DayOf(clock.Writable(date.Add(12 * time.Hour)))
	if away := k.Day - progress.DayOf(at); away < -mostAway || away > mostAway {
		return k, fmt.Errorf("day is %s, and that is not the practice day of %s anywhere", l.Day, l.At)
	}
	if l.TookMS < 0 || l.TookMS > progress.LongestTook.Milliseconds() {
		return k, fmt.Errorf("took_ms is %d, and a question stands for %d at most, which is a day, and no less than 0", l.TookMS, progress.LongestTook.Milliseconds())
	}
	if l.Played != 0 && l.Played != 1 {
		return k, fmt.Errorf("played is %d: it is 1 of an answer that was played, or else 0", l.Played)
	}
	result, err := progress.ParseResult(l.Result)
	if err != nil {
		return k, err
	}
	k.Answer = progress.Answer{
		Session: l.Session, Item: l.Item, Drill: l.Drill, Seed: l.Seed, At: at,
		Question: l.Question, Given: l.Given, Expected: l.Expected, TakenFor: l.TakenFor,
		Result: result, Took: time.Duration(l.TookMS) * time.Millisecond, Replays: l.Replays, Hints: l.Hints, Voice: l.Voice, Choices: l.Choices, Rung: l.Rung, Lesson: l.Lesson, Step: l.Step, Played: l.Played == 1,
	}
	if err := k.Valid(); err != nil {
		return k, err
	}
	return k, k.Belongs()
}
