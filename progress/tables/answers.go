package tables

import (
	"database/sql"
	"encoding/hex"
	"time"

	"sparetone/progress"
)

// AnswerRow is an answer as the file has it.
type AnswerRow struct {
	progress.Answer
	N      int64 // its number, of one that was read
	ID     [16]byte
	Day    progress.Day
	Import string        // the import it came with; empty if it was given here
	Under  sql.NullInt64 // the seal it was read with, if it has one
}

// Answers reads all answers in the order they were given.
func Answers(from Reader, read func(AnswerRow) error) error {
	return AnswersWhere(from, "", nil, read)
}

func AnswersWhere(from Reader, where string, args []any, read func(AnswerRow) error) error {
	return Each(from, `SELECT answers.n, answers.id, session, a.id, a.drill, seed, at, day, question, given, expected,
			coalesce(b.id, ''), result, took, replays, hints, voice, seal, choices, import, rung, lesson, step, played, offered, chosen
		FROM answers JOIN items a ON a.n = item LEFT JOIN items b ON b.n = taken_for `+where+` ORDER BY answers.n`, args,
		func(row *sql.Rows) error {
			var k AnswerRow
			var id []byte
			var seed, at, took int64
			if err := row.Scan(&k.N, &id, &k.Session, &k.Item, &k.Drill, &seed, &at, &k.Day, &k.Question, &k.Given, &k.Expected,
				&k.TakenFor, &k.Result, &took, &k.Replays, &k.Hints, &k.Voice, &k.Under, &k.Choices, &k.Import, &k.Rung, &k.Lesson, &k.Step, &k.Played, &k.Offered, &k.Chosen); err != nil {
				return err
			}
			if copy(k.ID[:], id) != len(k.ID) {
				return progress.Damaged("an answer has the id %s", hex.EncodeToString(id))
			}
			k.Seed, k.At, k.Took = uint64(seed), time.UnixMilli(at).UTC(), time.Duration(took)*time.Millisecond
			return read(k)
		})
}

// Row is an answer as the values of InsertAnswer, which adds it after all others.
func (k AnswerRow) Row(names ItemNumbers) []any {
	var takenFor any
	if k.TakenFor != "" {
		takenFor = names[k.TakenFor]
	}
	return []any{k.ID[:], k.Session, names[k.Item], int64(k.Seed), k.At.UnixMilli(), int(k.Day), k.Question, k.Given, k.Expected,
		takenFor, int(k.Result), k.Took.Milliseconds(), k.Replays, k.Hints, k.Voice, k.seal(), k.Choices, k.Import, k.Rung, k.Lesson, k.Step, k.Played, k.Offered, k.Chosen}
}

const InsertAnswer = "INSERT INTO answers VALUES (NULL,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?)"

// seal returns the seal of an answer. It covers the names of its items, so that they are under seal as well.
// New fields go to the end.
func (k AnswerRow) seal() int64 {
	return SealOf(string(k.ID[:]), k.Session, k.Item, k.Drill, int64(k.Seed), k.At.UnixMilli(), int64(k.Day), k.Question, k.Given, k.Expected,
		k.TakenFor, int64(k.Result), k.Took.Milliseconds(), int64(k.Replays), int64(k.Hints), k.Voice, int64(k.Choices), k.Import, int64(k.Rung), k.Lesson, k.Step, number(k.Played), k.Offered, int64(k.Chosen))
}

// number is 1 for yes and 0 for no.
func number(yes bool) int64 {
	if yes {
		return 1
	}
	return 0
}

// Fault says in a few words why an answer in the file cannot be what was kept; it is empty if nothing is wrong.
func (k AnswerRow) Fault() string {
	if Broken(k.Under, k.seal()) {
		return "an answer of " + k.At.Format(time.DateOnly) + " is not what was written"
	}
	if err := k.Valid(); err != nil {
		return progress.Tidy(err.Error())
	}
	return ""
}
