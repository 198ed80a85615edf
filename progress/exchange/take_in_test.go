package exchange

import (
	"bytes"
	"database/sql"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/exported"
	"sparetone/progress/tables"

	"github.com/google/go-cmp/cmp"

	_ "modernc.org/sqlite"
)

// evening is when all that is taken in here was practised, and now is when it is taken in.
var (
	evening = time.Date(2026, time.March, 4, 18, 30, 0, 0, time.UTC)
	now     = evening.AddDate(0, 1, 0)
)

// fresh opens a file that holds nothing, in memory.
func fresh(t *testing.T) *sql.DB {
	t.Helper()
	db, err := sql.Open("sqlite", ":memory:")
	if err != nil {
		t.Fatal(err)
	}
	db.SetMaxOpenConns(1)
	t.Cleanup(func() { db.Close() })
	if err := tables.Write(db, func(tx *sql.Tx) error {
		if err := tables.Migrate(tx, 0, len(tables.Migrations)); err != nil {
			return err
		}
		return tables.GiveID(tx)
	}); err != nil {
		t.Fatal(err)
	}
	return db
}

// mine takes in whatever it is, as the student's own.
var mine = Taking{From: "from.jsonl", Means: func(string) bool { return true }, Other: true}

func taken(db *sql.DB, export string, how Taking) (done Imported, err error) {
	err = tables.Write(db, func(tx *sql.Tx) error {
		done, err = TakeIn(tx, now, strings.NewReader(export), how, nil)
		return err
	})
	return done, err
}

// undone takes the latest import back.
func undone(t *testing.T, db *sql.DB) {
	t.Helper()
	if err := tables.Write(db, func(tx *sql.Tx) error {
		all, err := Imports(tx)
		if err != nil {
			return err
		}
		return Undo(tx, all[0])
	}); err != nil {
		t.Fatal(err)
	}
}

func written(t *testing.T, db *sql.DB) string {
	t.Helper()
	var b bytes.Buffer
	if err := WriteJSON(db, now, &b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// fieldsOf are the fields of an answer as JSON has them, each another value than that of an empty answer.
var fieldsOf = map[string]string{
	"kind": `"answer"`, "id": `"00112233445566778899aabbccddeeff"`, "session": `"s"`, "item": `"name/add9/ukulele"`, "drill": `"name"`,
	"seed": `"18446744073709551615"`, "at": `"2026-03-04T18:40:00.125Z"`, "day": `"2026-03-04"`, "question": `"What is it?"`, "given": `"C6"`,
	"expected": `"Cadd9"`, "taken_for": `"name/6/ukulele"`, "result": `"wrong"`, "took_ms": `4250`, "replays": `2`, "hints": `1`,
	"voice": `"ukulele"`, "choices": `4`, "rung": `3`, "lesson": `"9f86d081884c7d65"`, "step": `"their-sounds"`, "played": `1`, "offered": `"add9|6|7|m7"`, "chosen": `2`, "file": `"FILE"`, "whose": `"Ada"`, "doubted": `false`,
}

// answerWith is an answer as a line of an export, with some fields otherwise; "" leaves one out.
func answerWith(other map[string]string) string {
	fields := maps.Clone(fieldsOf)
	maps.Copy(fields, other)
	var all []string
	for _, name := range slices.Sorted(maps.Keys(fields)) {
		if fields[name] != "" {
			all = append(all, fmt.Sprintf("%q:%s", name, fields[name]))
		}
	}
	return "{" + strings.Join(all, ",") + "}\n"
}

const ofSession = `{"kind":"session","id":"s","file":"FILE","whose":"Ada","began":"2026-03-04T18:30:00Z","ended":"2026-03-04T18:45:00Z","minutes":10}` + "\n"

func TestEveryFieldOfAnAnswerIsTakenIn(t *testing.T) {
	db := fresh(t)
	done, err := taken(db, ofSession+answerWith(nil), mine)
	if err != nil || done.Added != 1 || done.Sessions != 1 || done.Known != 0 {
		t.Fatalf("%+v, %v", done, err)
	}
	if err := tables.Answers(db, func(k tables.AnswerRow) error {
		want := progress.Answer{Session: "s", Item: "name/add9/ukulele", Drill: "name", Seed: 1<<64 - 1, At: evening.Add(10*time.Minute + 125*time.Millisecond),
			Question: "What is it?", Given: "C6", Expected: "Cadd9", TakenFor: "name/6/ukulele", Result: progress.Wrong, Choices: 4, Took: 4250 * time.Millisecond,
			Replays: 2, Hints: 1, Voice: "ukulele", Rung: 3, Lesson: "9f86d081884c7d65", Step: "their-sounds", Played: true, Offered: "add9|6|7|m7", Chosen: 2}
		if diff := cmp.Diff(want, k.Answer); diff != "" {
			t.Error(diff)
		}
		for field := range reflect.TypeFor[progress.Answer]().NumField() { // a new one stands in what is taken in
			if reflect.ValueOf(want).Field(field).IsZero() {
				t.Errorf("%s is not taken in here", reflect.TypeFor[progress.Answer]().Field(field).Name)
			}
		}
		if k.Import != done.ID || k.Day != progress.DayOf(evening) || fmt.Sprintf("%x", k.ID) != "00112233445566778899aabbccddeeff" {
			t.Errorf("import %q, day %d, id %x", k.Import, k.Day, k.ID)
		}
		return nil
	}); err != nil {
		t.Error(err)
	}
	sessions, err := tables.Sessions(db)
	want := []progress.Session{{ID: "s", Began: evening, Ended: evening.Add(15 * time.Minute), Minutes: 10 * time.Minute}}
	if diff := cmp.Diff(want, sessions); diff != "" || err != nil {
		t.Error(diff, err)
	}
}

func TestWhatIsWrittenIsWhatWasTakenIn(t *testing.T) {
	db := fresh(t)
	if _, err := taken(db, ofSession+answerWith(nil), mine); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(`{"kind":"session","id":"s","file":"FILE","whose":"Ada","began":"2026-03-04T18:30:00Z","ended":"2026-03-04T18:45:00Z","minutes":10}
{"kind":"answer","id":"00112233445566778899aabbccddeeff","session":"s","item":"name/add9/ukulele","drill":"name","seed":"18446744073709551615","at":"2026-03-04T18:40:00.125Z","day":"2026-03-04","question":"What is it?","given":"C6","expected":"Cadd9","taken_for":"name/6/ukulele","result":"wrong","took_ms":4250,"replays":2,"hints":1,"voice":"ukulele","choices":4,"rung":3,"lesson":"9f86d081884c7d65","step":"their-sounds","played":1,"offered":"add9|6|7|m7","chosen":2,"file":"FILE","whose":"Ada","doubted":false}
`, written(t, db)); diff != "" {
		t.Error(diff)
	}
	var csv bytes.Buffer
	if err := WriteCSV(db, now, &csv); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(`id,session,item,drill,seed,at,day,question,given,expected,taken_for,result,took_ms,replays,hints,voice,choices,rung,lesson,step,played,offered,chosen,file,whose,doubted
00112233445566778899aabbccddeeff,s,name/add9/ukulele,name,18446744073709551615,2026-03-04T18:40:00.125Z,2026-03-04,What is it?,C6,Cadd9,name/6/ukulele,wrong,4250,2,1,ukulele,4,3,9f86d081884c7d65,their-sounds,1,add9|6|7|m7,2,FILE,Ada,false
`, csv.String()); diff != "" {
		t.Error(diff)
	}
}

// An answer that is wrong in one field is refused by the name of that field, and nothing comes in.
func TestAnAnswerIsRefusedByItsField(t *testing.T) {
	long := `"` + strings.Repeat("n", progress.LongestText+1) + `"`
	for _, c := range []struct{ field, is, want string }{
		{"kind", `"day"`, `kind is "session", "song" or "answer"`},
		{"id", `"0011"`, `id is 32 hexadecimal digits, not "0011"`},
		{"id", `"zz112233445566778899aabbccddeeff"`, `id is 32 hexadecimal digits, not "zz112233445566778899aabbccddeeff"`},
		{"id", `""`, `id is 32 hexadecimal digits, not ""`},
		{"id", `7`, `id is a text in double quotes`},
		{"id", ``, `id is missing; every export has it`},
		{"session", ``, `session is missing; every export has it`},
		{"session", `null`, `session is a text in double quotes`},
		{"item", `""`, `item is empty`},
		{"item", `"spell/add9/ukulele"`, `drill is "name", but the item spell/add9/ukulele belongs to the drill spell`},
		{"drill", `""`, `drill is empty, of name/add9/ukulele`},
		{"seed", `7`, `seed is a whole number in double quotes, such as "17"`},
		{"seed", `"18446744073709551616"`, `seed is a whole number that fits, not "18446744073709551616"`},
		{"seed", `"-1"`, `seed is a whole number that fits, not "-1"`},
		{"at", `"yesterday"`, `at is a time such as 2026-03-04T18:30:00.000Z, not "yesterday"`},
		{"day", `"4 March"`, `day is a date such as 2026-03-04, not "4 March"`},
		{"day", `"2026-03-07"`, `day is 2026-03-07, and that is not the practice day of 2026-03-04T18:40:00.125Z anywhere`},
		{"day", `"2026-03-01"`, `day is 2026-03-01, and that is not the practice day of 2026-03-04T18:40:00.125Z anywhere`},
		{"question", long, `question has 1001 bytes, and 1000 are kept`},
		{"given", `"\u0007"`, `given has a control character in it, which is not kept`},
		{"expected", `["Cadd9"]`, `expected is a text in double quotes`},
		{"taken_for", `"spell/6/ukulele"`, `taken_for is spell/6/ukulele, but an item is taken for another of its own drill, name/…`},
		{"result", `"good"`, `result is right, partly or wrong, not "good"`},
		{"result", `"right"`, `taken_for is name/6/ukulele, but result is right, and what is right is taken for nothing else`},
		{"took_ms", `-1`, `took_ms is -1, and a question stands for 86400000 at most, which is a day, and no less than 0`},
		{"took_ms", `86400001`, `took_ms is 86400001, and a question stands for 86400000 at most, which is a day, and no less than 0`},
		{"took_ms", `"4250"`, `took_ms is a whole number that fits, without quotes`},
		{"took_ms", `4250.5`, `took_ms is a whole number that fits, not "4250.5"`},
		{"replays", `-2`, `replays is -2, which is less than 0`},
		{"hints", `-1`, `hints is -1, which is less than 0`},
		{"hints", `1e3`, `hints is a whole number that fits, not "1e3"`},
		{"voice", `""`, `replays is 2, but voice is empty, and what is silent is not heard again`},
		{"choices", `1`, `choices is 1: an answer is one of 2 to 100 choices, or of 0 if it was given freely`},
		{"choices", `101`, `choices is 101: an answer is one of 2 to 100 choices, or of 0 if it was given freely`},
		{"rung", `-1`, `rung is -1, and a rung is 1 to 100, or 0 if nobody knows`},
		{"rung", `101`, `rung is 101, and a rung is 1 to 100, or 0 if nobody knows`},
		{"lesson", `""`, `step is "their-sounds", but lesson is empty, and a step is of a lesson`},
		{"lesson", `"` + strings.Repeat("l", 1001) + `"`, `lesson has 1001 bytes, and 1000 are kept`},
		{"step", `"a\tb"`, `step has a control character in it, which is not kept`},
		{"played", `2`, `played is 2: it is 1 of an answer that was played, or else 0`},
		{"played", `-1`, `played is -1: it is 1 of an answer that was played, or else 0`},
		{"played", `true`, `played is a whole number that fits, without quotes`},
		{"offered", `"add9|6|7"`, `offered has 3 choices with | between them, but choices is 4`},
		{"offered", `"add9"`, `offered has 1 choices with | between them, but choices is 4`},
		{"offered", `"add9|6|7|m\t7"`, `offered has a control character in it, which is not kept`},
		{"offered", `""`, `chosen is 2, but offered has 0 choices; it is 0 if none of them was answered`},
		{"chosen", `5`, `chosen is 5, but offered has 4 choices; it is 0 if none of them was answered`},
		{"chosen", `-1`, `chosen is -1, which is less than 0`},
		{"file", `"` + strings.Repeat("F", 101) + `"`, `file is a line of 100 bytes at most, without control characters`},
		{"whose", `"Ada\n"`, `whose is a line of 100 bytes at most, without control characters`},
		{"doubted", `"false"`, `doubted is true or false, without quotes`},
	} {
		db := fresh(t)
		_, err := taken(db, ofSession+answerWith(map[string]string{c.field: c.is}), mine)
		if want := "line 2: " + c.want + "; nothing was imported"; err == nil || err.Error() != want {
			t.Errorf("%s %s:\n%v, want\n%s", c.field, progress.Short(c.is), err, want)
		}
		if written(t, db) != "" {
			t.Errorf("%s %s: something came in", c.field, progress.Short(c.is))
		}
	}
}

// What lies just within is taken in.
func TestAnAnswerAtTheEdgeIsTakenIn(t *testing.T) {
	for _, c := range []map[string]string{
		{"took_ms": `86400000`}, {"took_ms": `0`}, {"day": `"2026-03-06"`}, {"day": `"2026-03-02"`}, {"choices": `2`, "offered": `"6|add9"`}, {"choices": `100`, "offered": ``, "chosen": ``}, {"choices": `0`, "offered": ``, "chosen": `0`}, {"choices": ``, "offered": ``, "chosen": ``},
		{"chosen": `4`}, {"chosen": `1`}, {"chosen": ``},
		{"rung": `1`}, {"rung": `100`}, {"rung": `0`}, {"rung": ``},
		{"step": `""`}, {"step": ``}, {"step": ``, "lesson": ``}, {"played": `0`}, {"played": ``},
		{"question": `"` + strings.Repeat("n", progress.LongestText) + `"`}, {"file": `"` + strings.Repeat("F", 100) + `"`}, {"seed": `"0"`}, {"taken_for": `""`}, {"doubted": ``}, {"doubted": `true`},
	} {
		if done, err := taken(fresh(t), ofSession+answerWith(c), mine); err != nil || done.Added != 1 {
			t.Errorf("%v: %+v, %v", c, done, err)
		}
	}
}

func TestASessionIsRefusedByItsField(t *testing.T) {
	for _, c := range []struct{ was, is, want string }{
		{`"id":"s",`, ``, `id is missing; every export has it`},
		{`"id":"s"`, `"id":""`, `id is a line of 1 to 1000 bytes, without control characters`},
		{`"id":"s"`, `"id":" s\u0000"`, `id is a line of 1 to 1000 bytes, without control characters`},
		{`"began":"2026-03-04T18:30:00Z",`, ``, `began is missing; every export has it`},
		{`"began":"2026-03-04T18:30:00Z"`, `"began":"soon"`, `began is a time such as 2026-03-04T18:30:00.000Z, not "soon"`},
		{`"ended":"2026-03-04T18:45:00Z"`, `"ended":"late"`, `ended is a time such as 2026-03-04T18:30:00.000Z, not "late"`},
		{`"ended":"2026-03-04T18:45:00Z"`, `"ended":"2026-03-03T18:29:59.999Z"`, `ended is 2026-03-03T18:29:59.999Z, and that is before it began, 2026-03-04T18:30:00.000Z`},
		{`,"minutes":10`, ``, `minutes is missing; every export has it`},
		{`"minutes":10`, `"minutes":"10"`, `minutes is a number without quotes, from 0 to 1440, which is a day`},
		{`"minutes":10`, `"minutes":null`, `minutes is a number without quotes, from 0 to 1440, which is a day`},
		{`"minutes":10`, `"minutes":-0.5`, `minutes is a number without quotes, from 0 to 1440, which is a day`},
		{`"minutes":10`, `"minutes":1440.5`, `minutes is a number without quotes, from 0 to 1440, which is a day`},
		{`"minutes":10`, `"minutes":10,"doubted":1`, `doubted is true or false, without quotes`},
		{`"minutes":10`, `"minutes":10,"id":"s"`, `id is there twice`},
		{`"file":"FILE"`, `"file":7`, `file is a text in double quotes`},
		{`"whose":"Ada"`, `"whose":7`, `whose is a text in double quotes`},
		{`"minutes":10}`, `"minutes":10`, `this is not a whole JSON object`},
	} {
		line := strings.Replace(ofSession, c.was, c.is, 1)
		if line == ofSession {
			t.Fatalf("%s is not in the line", c.was)
		}
		_, err := taken(fresh(t), line, mine)
		if want := "line 1: " + c.want + "; nothing was imported"; err == nil || err.Error() != want {
			t.Errorf("%s:\n%v, want\n%s", c.is, err, want)
		}
	}
	for was, is := range map[string]string{`"minutes":10`: `"minutes":1440`, `"ended":"2026-03-04T18:45:00Z"`: `"ended":null`,
		`"ended":"2026-03-04T18:45:00Z",`: `"ended":"2026-03-03T18:30:00Z",`, `"minutes":10}`: `"minutes":0}`} {
		if done, err := taken(fresh(t), strings.Replace(ofSession, was, is, 1), mine); err != nil || done.Sessions != 1 {
			t.Errorf("%s: %+v, %v", is, done, err)
		}
	}
}

// A time that its session denies by more than a day is refused, whichever of the two comes first; where the export says that it
// is doubted it is taken in.
func TestAnAnswerAndItsSessionAgreeToTheDay(t *testing.T) {
	for _, c := range []struct {
		at, day string
		want    string // of the answer; "" if it is taken in
		denies  string // of the session
	}{
		{at: "2026-03-03T18:30:00Z", day: "2026-03-03"},
		{at: "2026-03-05T18:45:00Z", day: "2026-03-05"},
		{"2026-03-03T18:29:59.999Z", "2026-03-03", "at is 2026-03-03T18:29:59.999Z, more than a day before its session began, 2026-03-04T18:30:00.000Z", "began"},
		{"2026-03-05T18:45:00.001Z", "2026-03-05", "at is 2026-03-05T18:45:00.001Z, more than a day after its session ended, 2026-03-04T18:45:00.000Z", "ended"},
	} {
		fields := map[string]string{"at": `"` + c.at + `"`, "day": `"` + c.day + `"`}
		answer := answerWith(fields)
		_, after := taken(fresh(t), ofSession+answer, mine)
		_, before := taken(fresh(t), answer+ofSession, mine)
		if c.want == "" {
			if after != nil || before != nil {
				t.Errorf("%s: %v, %v", c.at, after, before)
			}
			continue
		}
		if after == nil || after.Error() != "line 2: "+c.want+"; nothing was imported" {
			t.Errorf("%s: %v", c.at, after)
		}
		if before == nil || !strings.HasPrefix(before.Error(), "line 2: "+c.denies+" denies an answer of this session") {
			t.Errorf("%s: %v", c.at, before)
		}
		for _, says := range []string{`true`, ``} {
			fields["doubted"] = says
			if _, err := taken(fresh(t), ofSession+answerWith(fields), mine); err != nil {
				t.Errorf("%s, doubted %q: %v", c.at, says, err)
			}
		}
		if _, err := taken(fresh(t), strings.Replace(ofSession, `"minutes"`, `"doubted":true,"minutes"`, 1)+answer, mine); err != nil {
			t.Errorf("%s of a doubted session: %v", c.at, err)
		}
	}
}

// What is under one id already has to be the same in every field.
func TestAnAnswerThatIsThereIsHeldToWhatItWas(t *testing.T) {
	db := fresh(t)
	if _, err := taken(db, ofSession+answerWith(nil), mine); err != nil {
		t.Fatal(err)
	}
	was := written(t, db)
	if done, err := taken(db, ofSession+answerWith(map[string]string{"choices": ``, "rung": ``, "lesson": ``, "step": ``, "played": ``, "offered": ``, "chosen": ``}), mine); err != nil || done.Known != 1 || done.Added != 0 || done.ID != "" {
		t.Errorf("the same again: %+v, %v", done, err)
	}
	others := map[string]string{"session": `"other"`, "item": `"name/7/ukulele"`, "seed": `"3"`, "at": `"2026-03-04T18:40:00.126Z"`,
		"day": `"2026-03-05"`, "question": `"?"`, "given": `"C"`, "expected": `"C"`, "taken_for": `"name/7/ukulele"`, "result": `"partly"`, "took_ms": `4251`,
		"replays": `1`, "hints": `0`, "voice": `"guitar"`, "choices": `5`, "rung": `2`, "lesson": `"other"`, "step": `"other"`, "offered": `"add9|m6|7|m7"`, "chosen": `3`}
	for field, is := range others {
		otherwise := map[string]string{field: is}
		if field == "choices" { // which offered has to agree with
			otherwise["offered"], otherwise["chosen"] = ``, ``
		}
		_, err := taken(db, answerWith(otherwise), mine)
		want := "line 1: " + field + " is another than that of the answer which is kept under the id 00112233445566778899aabbccddeeff; nothing was imported"
		if err == nil || err.Error() != want {
			t.Errorf("%s: %v", field, err)
		}
	}
	for _, c := range exported.Columns { // the id is what it is known by, the drill follows from the item, played comes below
		if _, tried := others[c.Name]; !tried && !slices.Contains([]string{"id", "drill", "played", "file", "whose", "doubted"}, c.Name) {
			t.Errorf("%s may be another", c.Name)
		}
	}
	typed := fresh(t)
	if _, err := taken(typed, ofSession+answerWith(map[string]string{"played": `0`}), mine); err != nil {
		t.Fatal(err)
	}
	if _, err := taken(typed, answerWith(nil), mine); err == nil || !strings.HasPrefix(err.Error(), "line 1: played is another") {
		t.Errorf("played and typed: %v", err)
	}
	for was, is := range map[string]string{"18:30": "18:31", "18:45": "18:46", `"minutes":10`: `"minutes":10.001`} {
		if _, err := taken(db, strings.Replace(ofSession, was, is, 1), mine); err == nil || !strings.Contains(err.Error(), "is another than that of the session which is kept under the id s") {
			t.Errorf("%s: %v", is, err)
		}
	}
	if got := written(t, db); got != was {
		t.Error(cmp.Diff(was, got))
	}
}

func TestAnExportSaysWhatItIsNot(t *testing.T) {
	head := strings.Join(columnNames(), ",")
	for _, c := range []struct{ export, want string }{
		{"", "there is nothing in it"},
		{"\n \r\n", "there is nothing in it"},
		{"SQLite format 3\x00 and more\n", exported.ErrDatabase.Error()},
		{"\xff\xfe{\x00", exported.ErrUTF16.Error()},
		{"\xfe\xff\x00{", exported.ErrUTF16.Error()},
		{"hello\n", "line 1: " + exported.ErrNoExport.Error() + "; nothing was imported"},
		{strings.Repeat("x", LongestLine+1), exported.ErrNoExport.Error()},
		{"{" + strings.Repeat("x", LongestLine+1), "line 1: longer than 65536 bytes; nothing was imported"},
		{ofSession + "id,session\n", "line 2: this is not a JSON object; nothing was imported"},
		{ofSession + "[]\n", "line 2: this is not a JSON object; nothing was imported"},
		{strings.Replace(head, "voice", "tone", 1) + "\n", "line 1: voice is missing; every export has it; nothing was imported"},
		{head + ",id\n", "line 1: id is there twice; nothing was imported"},
		{head + "\na,b\n", "line 2: not a row of 26 columns; nothing was imported"},
	} {
		if _, err := taken(fresh(t), c.export, mine); err == nil || err.Error() != c.want {
			t.Errorf("%q: %v, want %s", progress.Short(c.export), err, c.want)
		} else if _, bad := err.(exported.BadExport); !bad {
			t.Errorf("%q: %T", progress.Short(c.export), err)
		}
	}
	for name, export := range map[string]string{"a mark of UTF-8": "\ufeff" + ofSession, "empty lines": "\n\n" + ofSession + "\r\n", "no last line end": strings.TrimSpace(ofSession)} {
		if done, err := taken(fresh(t), export, mine); err != nil || done.Sessions != 1 {
			t.Errorf("%s: %+v, %v", name, done, err)
		}
	}
}

func columnNames() (all []string) {
	for _, c := range exported.Columns {
		all = append(all, c.Name)
	}
	return all
}

// A row of a spreadsheet is read with the columns that earlier versions did not have left out.
func TestOfLaterColumnsNoneNeedsToBeThere(t *testing.T) {
	var later []string
	for _, c := range exported.Columns {
		if c.Later {
			later = append(later, c.Name)
		}
	}
	if diff := cmp.Diff([]string{"choices", "rung", "lesson", "step", "played", "offered", "chosen", "file", "whose", "doubted"}, later); diff != "" {
		t.Error(diff)
	}
	export := "sep=;\n" + strings.Join(columnNames()[:16], ";") + "\n" +
		"00112233445566778899aabbccddeeff;s;name/add9/ukulele;name;17;2026-03-04T18:40:00.125Z;4.3.2026;?;C6;Cadd9;;wrong;4.250;0;0;ukulele\n" + strings.Repeat(";", 15) + "\n"
	export = strings.Replace(export, "4.250", "4250", 1)
	if done, err := taken(fresh(t), export, mine); err != nil || done.Added != 1 {
		t.Errorf("%+v, %v", done, err)
	}
}

// Seeds that all end in noughts have been rounded; one that does not shows that they have not.
func TestRoundedSeedsAreRefusedTogether(t *testing.T) {
	row := func(id, seed string) string {
		return id + strings.Repeat("0", 31) + ",s,name/add9/ukulele,name," + seed + ",2026-03-04T18:40:00Z,2026-03-04,?,C6,Cadd9,,wrong,4250,0,0,ukulele,4,3,9f86d081884c7d65,their-sounds,0,add9|6|7|m7,2,FILE,Ada,false\n"
	}
	head := strings.Join(columnNames(), ",") + "\n"
	if _, err := taken(fresh(t), head+row("1", "17")+row("2", "1234567890123450000"), mine); err == nil || !strings.HasPrefix(err.Error(), "line 3: seed ends in noughts, as in every row") {
		t.Error(err)
	}
	if done, err := taken(fresh(t), head+row("2", "1234567890123450000")+row("3", "1234567890123456789"), mine); err != nil || done.Added != 2 {
		t.Errorf("%+v, %v", done, err)
	}
}

// Whose practice comes in: a file that is empty goes on from it; into another it comes only where the student says so.
func TestWhoseAnExportIs(t *testing.T) {
	db := fresh(t)
	alone := mine
	alone.Other = false
	ada := ofSession + answerWith(nil)
	done, err := taken(db, ada, alone)
	if err != nil || !done.Goes || len(done.Joined) != 0 || len(done.Of) != 1 || done.Of[0] != (progress.Whose{ID: "FILE", Name: "Ada"}) {
		t.Fatalf("into an empty file: %+v, %v", done, err)
	}
	if w, _ := tables.WhoseIs(db); w != (progress.Whose{ID: "FILE", Name: "Ada"}) {
		t.Errorf("the file is then of %+v", w)
	}
	bo := answerWith(map[string]string{"id": `"ff112233445566778899aabbccddeeff"`, "session": `"t"`, "file": `"OTHER"`, "whose": `"Bo"`})
	_, err = taken(db, bo, alone)
	if a, is := err.(*AnothersError); !is || a.Answers != 1 || a.Whose.Name != "Bo" || a.Error() != "this is the practice of Bo and not yours, 1 answers that are new here; nothing was imported" {
		t.Errorf("another's: %v", err)
	}
	nameless := strings.Replace(bo, `"Bo"`, `""`, 1)
	if _, err = taken(db, nameless, alone); err == nil || err.Error() != "this is the practice of another progress file than yours, 1 answers that are new here; nothing was imported" {
		t.Errorf("another's without a name: %v", err)
	}
	done, err = taken(db, bo, mine)
	if err != nil || done.Goes || len(done.Joined) != 1 || done.Joined[0].ID != "OTHER" {
		t.Errorf("as one's own: %+v, %v", done, err)
	}
	again := strings.Replace(bo, `"id":"ff`, `"id":"fe`, 1)
	if done, err = taken(db, again, alone); err != nil || done.Added != 1 || len(done.Joined) != 0 {
		t.Errorf("once it was one's own: %+v, %v", done, err)
	}
}

// Items that this version does not know are kept, counted, and one of them is named.
func TestForeignItemsAreCounted(t *testing.T) {
	how := mine
	asked := 0
	how.Means = func(item string) bool { asked++; return item != "name/add9/ukulele" }
	export := answerWith(nil) + answerWith(map[string]string{"id": `"01112233445566778899aabbccddeeff"`}) +
		answerWith(map[string]string{"id": `"02112233445566778899aabbccddeeff"`, "item": `"name/7/ukulele"`})
	done, err := taken(fresh(t), export, how)
	if err != nil || done.Added != 3 || done.Foreign != 2 || done.Such != "name/add9/ukulele" {
		t.Errorf("%+v, %v", done, err)
	}
	if asked != 2 {
		t.Errorf("asked of %d items", asked)
	}
}

// A session that had no end gets it from an export, and taking that back takes the end away; all else is as it was before.
func TestUndoLeavesWhatWasThere(t *testing.T) {
	db := fresh(t)
	open := strings.Replace(ofSession, `"ended":"2026-03-04T18:45:00Z",`, ``, 1)
	if _, err := taken(db, open+answerWith(nil), mine); err != nil {
		t.Fatal(err)
	}
	was := written(t, db)
	more := ofSession + answerWith(map[string]string{"id": `"ff112233445566778899aabbccddeeff"`, "item": `"name/m7/ukulele"`, "file": `"OTHER"`, "whose": `"Bo"`})
	done, err := taken(db, more, mine)
	if err != nil {
		t.Fatal(err)
	}
	if s, _ := tables.Sessions(db); len(s) != 1 || !s[0].Ended.Equal(evening.Add(15*time.Minute)) {
		t.Errorf("the session then is %+v", s)
	}
	err = tables.Write(db, func(tx *sql.Tx) error {
		all, err := Imports(tx)
		if err != nil {
			return err
		}
		if len(all) != 2 || all[0].ID != done.ID || all[0].From != "from.jsonl" || !all[0].At.Equal(now) || all[0].Answers != 1 || all[0].Sessions != 0 || all[0].Items != 1 || all[0].Copy != "" {
			t.Errorf("imports %+v", all)
		}
		if err := Undo(tx, all[1]); err == nil || err.Error() != "another program has imported something, or taken it back, in this moment; nothing was changed" {
			t.Errorf("not the latest: %v", err)
		}
		return Undo(tx, all[0])
	})
	if err != nil {
		t.Fatal(err)
	}
	if got := written(t, db); got != was {
		t.Error(cmp.Diff(was, got))
	}
	if mine, err := tables.IsMine(db, "OTHER"); mine || err != nil {
		t.Errorf("what was taken in as one's own still is: %v, %v", mine, err)
	}
}

// A file that went on from an export is again what it was before, but for a name that was given since.
func TestUndoGivesTheFileBack(t *testing.T) {
	for since, want := range map[string]string{"": "", "Cy": "Cy"} {
		db := fresh(t)
		was, _ := tables.WhoseIs(db)
		done, err := taken(db, answerWith(nil), mine)
		if err != nil || !done.Goes {
			t.Fatalf("%+v, %v", done, err)
		}
		if err := tables.Write(db, func(tx *sql.Tx) error {
			if since != "" {
				if err := tables.SetOrClear(tx, tables.NameKey, since); err != nil {
					return err
				}
			}
			return nil
		}); err != nil {
			t.Fatal(err)
		}
		undone(t, db)
		if w, _ := tables.WhoseIs(db); w != (progress.Whose{ID: was.ID, Name: want}) {
			t.Errorf("named %q since: %+v", since, w)
		}
	}
}
