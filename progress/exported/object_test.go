package exported

import (
	"database/sql"
	"encoding/json"
	"errors"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"sparetone/progress"
	"sparetone/progress/clock"
	"sparetone/progress/tables"
)

// fieldsOf is a line by its fields.
func fieldsOf(t *testing.T, line any) Object {
	t.Helper()
	text, err := json.Marshal(line)
	if err != nil {
		t.Fatal(err)
	}
	o, err := ObjectOf(text)
	if err != nil {
		t.Fatal(err)
	}
	return o
}

// refused checks that a change of one field of an object, or its loss where it is empty, is refused with what is said. A change to
// what is said as "" is read.
func refused(t *testing.T, of func() Object, read func(Object) error, changes [][3]string) {
	t.Helper()
	if err := read(of()); err != nil {
		t.Fatal(err)
	}
	for _, c := range changes {
		o := of()
		if o[c[0]] = json.RawMessage(c[1]); c[1] == "" {
			delete(o, c[0])
		}
		if err := read(o); c[2] == "" && err != nil || c[2] != "" && (err == nil || err.Error() != c[2]) {
			t.Errorf("%s is %s: %v, want %q", c[0], c[1], err, c[2])
		}
	}
}

var (
	began = time.Date(2026, time.March, 4, 18, 30, 0, 0, time.UTC)
	ended = began.Add(15*time.Minute + 250*time.Millisecond)
)

// A session comes back as it went out; a field that is missing or wrong is said by name.
func TestASessionComesBack(t *testing.T) {
	session := func() Object {
		return fieldsOf(t, Session{Kind: "session", ID: "monday", Owner: Owner{"FILE", "Ada"}, Began: began, Ended: &ended, Minutes: 10.5, Doubted: true})
	}
	s, doubted, err := session().Session()
	want := tables.SessionRow{Id: "monday", Began: began.UnixMilli(), Ended: sql.NullInt64{Int64: ended.UnixMilli(), Valid: true}, Minutes: 10.5}
	if diff := cmp.Diff(want, s); diff != "" || !doubted || err != nil {
		t.Error(diff, doubted, err)
	}
	if of, err := session().Owner(); of != (Owner{"FILE", "Ada"}) || err != nil {
		t.Error(of, err)
	}
	for _, none := range []string{"", "null"} {
		o := session()
		if o["ended"] = json.RawMessage(none); none == "" {
			delete(o, "ended")
		}
		delete(o, "doubted")
		if s, doubted, err := o.Session(); s.Ended.Valid || doubted || err != nil {
			t.Errorf("not ended: %+v, %v, %v", s, doubted, err)
		}
	}
	id := "id is a line of 1 to " + strconv.Itoa(progress.LongestText) + " bytes, without control characters"
	const minutes = "minutes is a number without quotes, from 0 to 1440, which is a day"
	refused(t, session, func(o Object) error { _, _, err := o.Session(); return err }, [][3]string{
		{"id", "", "id is missing; every export has it"},
		{"began", "", "began is missing; every export has it"},
		{"minutes", "", "minutes is missing; every export has it"},
		{"id", `""`, id},
		{"id", `"a\tb"`, id},
		{"id", `7`, "id is a text in double quotes"},
		{"began", `7`, "began is a text in double quotes"},
		{"began", `"soon"`, `began is a time such as 2026-03-04T18:30:00.000Z, not "soon"`},
		{"ended", `"late"`, `ended is a time such as 2026-03-04T18:30:00.000Z, not "late"`},
		{"doubted", `"true"`, "doubted is true or false, without quotes"},
		{"minutes", `"10"`, minutes}, {"minutes", `null`, minutes}, {"minutes", `-0.5`, minutes}, {"minutes", `1440.5`, minutes},
		{"minutes", `0`, ""}, {"minutes", `1440`, ""},
		{"ended", `"2026-03-01T18:30:00.000Z"`, ""}, // since it is doubted
	})
	sure := func() Object { o := session(); delete(o, "doubted"); return o }
	refused(t, sure, func(o Object) error { _, _, err := o.Session(); return err }, [][3]string{
		{"ended", `"2026-03-03T18:30:00.000Z"`, ""}, // a day before, to the millisecond
		{"ended", `"2026-03-03T18:29:59.999Z"`, "ended is 2026-03-03T18:29:59.999Z, and that is before it began, 2026-03-04T18:30:00.000Z"},
	})
}

// A song comes back as it went out; a field that is missing or wrong is said by name.
func TestASongComesBack(t *testing.T) {
	kept := progress.Song{ID: "1", Song: "2", Chart: "| C | F |\n", Tuning: "ukulele", Rich: 3, Shapes: "0003", Sounds: "plain"}
	song := func() Object {
		return fieldsOf(t, SongOf(tables.SongRow{Song: kept, At: began.UnixMilli()}, Owner{"FILE", "Ada"}))
	}
	s, err := song().Song()
	want := kept
	want.At = began
	if diff := cmp.Diff(want, s); diff != "" || err != nil {
		t.Error(diff, err)
	}
	if of, err := song().Owner(); of != (Owner{"FILE", "Ada"}) || err != nil || string(song()["kind"]) != `"song"` {
		t.Error(of, err)
	}
	var changes [][3]string
	for _, field := range []string{"id", "song", "chart", "tuning", "shapes", "sounds", "at", "rich"} {
		changes = append(changes, [3]string{field, "", field + " is missing; every export has it"})
		if field != "rich" {
			changes = append(changes, [3]string{field, "7", field + " is a text in double quotes"})
		}
	}
	refused(t, song, func(o Object) error { _, err := o.Song(); return err }, append(changes, [][3]string{
		{"rich", `"3"`, "rich is a whole number without quotes"}, {"rich", `null`, "rich is a whole number without quotes"}, {"rich", `3.5`, "rich is a whole number without quotes"},
		{"rich", `11`, "rich is 11; it is 0 to 10"}, {"rich", `10`, ""}, {"chart", `""`, ""},
		{"at", `"soon"`, `at is a time such as 2026-03-04T18:30:00.000Z, not "soon"`},
	}...))
}

// An answer lies within its session, but for a day that a clock may be off.
func TestWhatLiesOutsideASession(t *testing.T) {
	const day = 24 * time.Hour
	open := tables.SessionRow{Began: began.UnixMilli()}
	closed := tables.SessionRow{Began: began.UnixMilli(), Ended: sql.NullInt64{Int64: ended.UnixMilli(), Valid: true}}
	early, late := "more than a day before its session began, 2026-03-04T18:30:00.000Z", "more than a day after its session ended, 2026-03-04T18:45:00.250Z"
	for _, c := range []struct {
		s    tables.SessionRow
		at   time.Time
		want string
	}{
		{closed, began.Add(-day), ""}, {closed, began.Add(-day - time.Millisecond), early}, {closed, ended.Add(day), ""}, {closed, ended.Add(day + time.Millisecond), late},
		{open, ended.Add(100 * day), ""}, {open, began.Add(-2 * day), early},
		{tables.SessionRow{Began: clock.FirstSet.Add(-time.Hour).UnixMilli()}, began, ""},
		{tables.SessionRow{Began: 5}, time.UnixMilli(5).Add(-2 * day), ""}, // nobody knows when it began
		{tables.SessionRow{Began: began.UnixMilli(), Ended: sql.NullInt64{Int64: began.Add(-2 * day).UnixMilli(), Valid: true}}, began.Add(-5 * day), ""},
	} {
		if got := Outside(c.s, c.at.UnixMilli()); got != c.want {
			t.Errorf("%+v at %v: %q, want %q", c.s, c.at, got, c.want)
		}
	}
}

// What is said of an answer's fields, as JSON has them.
func TestAnAnswerIsRefusedByItsField(t *testing.T) {
	line := func() Object {
		out := AnswerOf(answered, true)
		out.Owner = Owner{"FILE", "Ada"}
		return fieldsOf(t, out)
	}
	const day = `day is 2026-03-07, and that is not the practice day of 2026-03-04T18:40:00.125Z anywhere`
	refused(t, line, func(o Object) error {
		l, err := o.Answer()
		if err == nil {
			_, err = l.Row()
		}
		return err
	}, [][3]string{
		{"id", `"01"`, `id is 32 hexadecimal digits, not "01"`}, {"id", `"0102030000000000000000000000000x"`, `id is 32 hexadecimal digits, not "0102030000000000000000000000000x"`},
		{"voice", "", "voice is missing; every export has it"}, {"chosen", "", ""}, {"hints", `"1"`, "hints is a whole number that fits, without quotes"},
		{"hints", `1.5`, `hints is a whole number that fits, not "1.5"`}, {"hints", `1e2`, `hints is a whole number that fits, not "1e2"`},
		{"seed", `17`, `seed is a whole number in double quotes, such as "17"`}, {"seed", `"18446744073709551616"`, `seed is a whole number that fits, not "18446744073709551616"`},
		{"at", `"soon"`, `at is a time such as 2026-03-04T18:30:00.000Z, not "soon"`}, {"day", `"soon"`, `day is a date such as 2026-03-04, not "soon"`},
		{"day", `"2026-03-07"`, day}, {"day", `"2026-03-06"`, ""}, {"day", `"2026-03-02"`, ""},
		{"took_ms", `-1`, "took_ms is -1, and a question stands for 86400000 at most, which is a day, and no less than 0"},
		{"took_ms", `86400001`, "took_ms is 86400001, and a question stands for 86400000 at most, which is a day, and no less than 0"}, {"took_ms", `86400000`, ""},
		{"played", `2`, "played is 2: it is 1 of an answer that was played, or else 0"}, {"played", `0`, ""},
		{"result", `"good"`, `result is right, partly or wrong, not "good"`}, {"doubted", `1`, "doubted is true or false, without quotes"},
	})
	o := line()
	o["at"] = json.RawMessage(`"2026-03-04T20:40:00.125+02:00"`) // wherever it was written
	l, err := o.Answer()
	if err != nil {
		t.Fatal(err)
	}
	if k, err := l.Row(); !k.At.Equal(answered.At) || k.At.Location() != time.UTC || err != nil {
		t.Errorf("%v, %v", k.At, err)
	}
}

// A line is one JSON object, and no field is there twice.
func TestALineIsOneObject(t *testing.T) {
	for line, says := range map[string]string{
		`{"a":1,"b":"x"}`: "", `{}`: "", `{"a":1} {}`: "this is not a whole JSON object", `[1]`: "this is not a whole JSON object", `7`: "this is not a whole JSON object",
		`{"a":1`: "this is not a whole JSON object", ``: "this is not a whole JSON object", `{"a":1,"a":2}`: "a is there twice",
	} {
		if _, err := ObjectOf([]byte(line)); says == "" && err != nil || says != "" && (err == nil || err.Error() != says) {
			t.Errorf("%s: %v, want %q", line, err, says)
		}
	}
	if o, err := ObjectOf([]byte(`{"a":"x\u0041"}`)); err != nil || string(o["a"]) != `"x\u0041"` {
		t.Error(o, err)
	}
	if text, err := (Object{"a": json.RawMessage("\"\xff\"")}).Text("a"); err == nil || err.Error() != "a is not in UTF-8" {
		t.Error(text, err)
	}
	if text, err := (Object{}).Text("a"); text != "" || err != nil {
		t.Error(text, err)
	}
	if err := (LineError{3, errors.New("wrong")}); err.Error() != "line 3: wrong" {
		t.Error(err)
	}
}

// Whose practice it is stands in a line of so many bytes.
func TestWhoseALineMayBe(t *testing.T) {
	for of, wrong := range map[Owner]string{
		{}: "", {"FILE", "Ada"}: "", {strings.Repeat("F", tables.LongestName), strings.Repeat("A", tables.LongestName)}: "",
		{strings.Repeat("F", tables.LongestName+1), ""}: "file", {"", strings.Repeat("A", tables.LongestName+1)}: "whose", {"a\tb", ""}: "file", {"", "a\x1bb"}: "whose",
	} {
		if err := of.Check(); wrong == "" && err != nil || wrong != "" && (err == nil || !strings.HasPrefix(err.Error(), wrong+" is a line of ")) {
			t.Errorf("%+v: %v", of, err)
		}
	}
}
