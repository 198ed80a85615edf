package exported

import (
	"encoding/hex"
	"fmt"
	"time"

	"sparetone/progress"
	"sparetone/progress/clock"
	"sparetone/progress/tables"
)

// Answer is an answer as it is exported.
type Answer struct {
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
	Choices  int    `json:"choices"`           // to choose from; 0 or left out if it was answered freely
	Rung     int    `json:"rung"`              // how closely it was asked, counted from 1, the clearest; 0 or left out if nobody knows
	Lesson   string `json:"lesson,omitempty"`  // id of the lesson it was asked for; left out if for none
	Step     string `json:"step,omitempty"`    // id of that lesson's step
	Played   int    `json:"played,omitempty"`  // 1 if it was played or sung; 0 or left out if it was typed, or if nobody knows; true and false are translated by spreadsheets
	Offered  string `json:"offered,omitempty"` // ids of the choices as they stood, with | between them; left out if it was answered freely, or if nobody knows
	Chosen   int    `json:"chosen,omitempty"`  // which of them was answered, counted from 1; 0 or left out if none was
	Owner
	Doubted bool `json:"doubted"` // its time cannot be true; whoever takes it in judges anew
	Judged  bool `json:"-"`       // the export says whether it is doubted; those of earlier versions do not
}

// mostAway is how many days may lie between a time, in UTC, and the practice day it fell on.
const mostAway = 2

// TimeForm is how a time is written down: RFC 3339, UTC, to the millisecond.
const TimeForm = "2006-01-02T15:04:05.000Z"

// AnswerOf returns an answer as it is exported, without its Owner.
func AnswerOf(k tables.AnswerRow, doubted bool) Answer {
	l := Answer{
		Kind: "answer", ID: hex.EncodeToString(k.ID[:]), Session: k.Session, Item: k.Item, Drill: k.Drill, Seed: k.Seed,
		At: clock.Writable(k.At).UTC().Format(TimeForm), Day: clock.Writable(k.Day.Date()).Format(time.DateOnly),
		Question: k.Question, Given: k.Given, Expected: k.Expected, TakenFor: k.TakenFor,
		Result: k.Result.String(), TookMS: k.Took.Milliseconds(), Replays: k.Replays, Hints: k.Hints, Voice: k.Voice, Choices: k.Choices, Rung: k.Rung, Lesson: k.Lesson, Step: k.Step,
		Offered: k.Offered, Chosen: k.Chosen,
		Doubted: doubted,
	}
	if k.Played {
		l.Played = 1
	}
	return l
}

// Row checks an exported answer and turns it back.
func (l Answer) Row() (k tables.AnswerRow, err error) {
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
		Result: result, Took: time.Duration(l.TookMS) * time.Millisecond, Replays: l.Replays, Hints: l.Hints, Voice: l.Voice, Choices: l.Choices, Rung: l.Rung, Lesson: l.Lesson, Step: l.Step, Offered: l.Offered, Chosen: l.Chosen, Played: l.Played == 1,
	}
	if err := k.Valid(); err != nil {
		return k, err
	}
	return k, k.Belongs()
}
