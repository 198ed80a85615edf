package store

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/exported"
)

// Of one answer, as exported: an object and a row, with fields changed by name. A field that is changed to nil is left out.
type asLines struct{ object, csv string }

// changed returns an answer as JSON and as CSV, with some fields changed; a text, a number or nil for none.
func changed(fields map[string]any) asLines {
	base := map[string]any{
		"kind": "answer", "id": strings.Repeat("0", 31) + "1", "session": "s", "item": "d/t/u", "drill": "d", "seed": "17",
		"at": "2026-03-04T23:30:00.000Z", "day": "2026-03-04", "question": "which?", "given": "C", "expected": "C7",
		"taken_for": "d/major/u", "result": "wrong", "took_ms": 3000, "replays": 1, "hints": 0, "voice": "soft", "choices": 5, "doubted": false,
	}
	for field, value := range fields {
		base[field] = value
		if value == nil {
			delete(base, field)
		}
	}
	object, err := json.Marshal(base)
	if err != nil {
		panic(err)
	}
	var names, row []string
	for _, c := range exported.Columns {
		if value, there := base[c.Name]; there {
			names, row = append(names, c.Name), append(row, fmt.Sprint(value))
		}
	}
	return asLines{string(object) + "\n", strings.Join(names, ",") + "\n" + strings.Join(row, ",") + "\n"}
}

// CSV and JSON ask for the same fields of an answer, and say the same of one that is missing or wrong, by its name.
func TestCSVAndJSONAskForTheSame(t *testing.T) {
	says := func(f *File, export string) string {
		_, err := f.Import(strings.NewReader(export), anything)
		if err == nil {
			return ""
		}
		_, text, _ := strings.Cut(err.Error(), ": ") // the line, which is the second in CSV
		return text
	}
	type try struct {
		field string
		value any
	}
	var tries []try
	for _, c := range exported.Columns {
		if c.Form == exported.OfFlag {
			continue
		}
		tries = append(tries, try{c.Name, nil})
		if c.Form == exported.OfNumber || c.Form == exported.OfLongNumber {
			tries = append(tries, try{c.Name, "x"}, try{c.Name, -1}, try{c.Name, 5.5}, try{c.Name, "99999999999999999999"}, try{c.Name, "null"}, try{c.Name, "007"})
		} else {
			tries = append(tries, try{c.Name, strings.Repeat("x", progress.LongestText+1)})
		}
	}
	tries = append(tries, try{"kind", "answer"}, try{"choices", 1}, try{"choices", 101}, try{"took_ms", 24*60*60*1000 + 1}, try{"result", "good"}, try{"item", ""}, try{"drill", ""},
		try{"id", "17"}, try{"at", "yesterday"}, try{"day", "2026-03-09"}, try{"day", "a day"}, try{"taken_for", "e/major/u"}, try{"drill", "e"})
	wrong := 0
	for _, c := range tries {
		form := exported.OfText
		if column, known := exported.ColumnNamed(c.field); known {
			form = column.Form
		}
		asJSON := c.value
		if text, quoted := c.value.(string); quoted && form == exported.OfNumber {
			asJSON = json.RawMessage(text) // numbers have no quotes in JSON
			if !json.Valid([]byte(text)) {
				continue
			}
		} else if c.value != nil && form == exported.OfLongNumber {
			asJSON = fmt.Sprint(c.value)
		}
		object := says(inMemory(t, later), changed(map[string]any{c.field: asJSON}).object)
		row := says(inMemory(t, later), changed(map[string]any{c.field: c.value}).csv)
		if object != row && c.value != "null" {
			t.Errorf("%s: %.60v: as JSON %q, as CSV %q", c.field, c.value, object, row)
		}
		if row != "" && !strings.HasPrefix(row, c.field+" ") {
			t.Errorf("%s: %.60v: %q does not name the field", c.field, c.value, row)
		}
		if column, known := exported.ColumnNamed(c.field); known && (c.value != nil || !column.Later) {
			if row == "" {
				t.Errorf("%s: %.60v: taken in", c.field, c.value)
			}
			wrong++
		}
	}
	if wrong < 60 {
		t.Errorf("only %d wrong fields", wrong)
	}
	if says := says(inMemory(t, later), changed(map[string]any{"choices": nil}).object); says != "" {
		t.Error(says)
	}
}

// Values of the wrong kind and fields that are there twice are named in JSON; columns that are there twice in CSV.
func TestFieldsOfTheWrongKind(t *testing.T) {
	good := changed(nil)
	for _, c := range []struct{ old, new, says string }{
		{`"replays":1`, `"replays":"1"`, "line 1: replays is a whole number that fits, without quotes"},
		{`"replays":1`, `"replays":null`, "line 1: replays is a whole number that fits, without quotes"},
		{`"given":"C"`, `"given":5`, "line 1: given is a text in double quotes"},
		{`"given":"C"`, `"given":null`, "line 1: given is a text in double quotes"},
		{`"seed":"17"`, `"seed":17`, `line 1: seed is a whole number in double quotes, such as "17"`},
		{`"doubted":false`, `"doubted":"false"`, "line 1: doubted is true or false, without quotes"},
		{`"given":"C"`, `"given":"C","given":"C"`, "line 1: given is there twice"},
		{`"given":"C"`, "\"given\":\"C\xff\"", "line 1: given is not in UTF-8"},
		{`"kind":"answer",`, ``, `line 1: kind is "session", "song" or "answer"`},
		{`}`, `} {}`, "line 1: this is not a whole JSON object"},
	} {
		_, err := inMemory(t, later).Import(strings.NewReader(strings.Replace(good.object, c.old, c.new, 1)), anything)
		if err == nil || !strings.HasPrefix(err.Error(), c.says) {
			t.Errorf("%s: %v, want %s", c.new, err, c.says)
		}
	}
	for _, c := range []struct{ old, new, says string }{
		{"voice", "voice,given", "line 1: given is there twice"},
		{",soft,", ",so\xfft,", "line 2: voice is not in UTF-8: save the file as CSV in UTF-8"},
		{",soft,", ",", "line 2: not a row of 18 columns"},
	} {
		_, err := inMemory(t, later).Import(strings.NewReader(strings.Replace(good.csv, c.old, c.new, 1)), anything)
		if err == nil || !strings.HasPrefix(err.Error(), c.says) {
			t.Errorf("%s: %v, want %s", c.new, err, c.says)
		}
	}
}

// Fields that no version knows are passed over, so that a newer version may have more.
func TestUnknownFieldsArePassedOver(t *testing.T) {
	good := changed(nil)
	for _, export := range []string{
		strings.Replace(good.object, `"given"`, `"mood":{"is":["good"]},"given"`, 1),
		strings.NewReplacer("voice", "mood,voice", ",soft,", ",good,soft,").Replace(good.csv),
	} {
		if got, err := inMemory(t, later).Import(strings.NewReader(export), anything); err != nil || got.Added != 1 {
			t.Errorf("%q: %+v, %v", export, got, err)
		}
	}
}

// An answer that is kept is known again only if every field is the same; the first that is not is named.
func TestAnAnswerIsTheSameInEveryField(t *testing.T) {
	for field, value := range map[string]any{
		"session": "other", "seed": "18", "at": "2026-03-04T23:30:00.001Z", "day": "2026-03-05", "question": "what?", "given": "D", "expected": "D7",
		"taken_for": "d/minor/u", "result": "partly", "took_ms": 3001, "replays": 2, "hints": 1, "voice": "hard", "choices": 4,
	} {
		f := inMemory(t, later)
		for _, export := range []string{changed(nil).object, changed(map[string]any{"choices": nil}).csv} {
			if _, err := f.Import(strings.NewReader(export), anything); err != nil {
				t.Fatal(err)
			}
		}
		_, err := f.Import(strings.NewReader(changed(map[string]any{field: value}).object), anything)
		if want := "line 1: " + field + " is another than that of the answer which is kept under the id 0000"; err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%v, want %s", err, want)
		}
	}
	f := inMemory(t, later)
	if _, err := f.Import(strings.NewReader(changed(nil).object), anything); err != nil {
		t.Fatal(err)
	}
	_, err := f.Import(strings.NewReader(changed(map[string]any{"item": "d/x/u"}).object), anything)
	if err == nil || !strings.HasPrefix(err.Error(), "line 1: item is another") {
		t.Error(err)
	}
}

// session returns a session as it is exported, which began at half past eleven in the evening, UTC.
func session(fields string) string {
	return `{"kind":"session","id":"s","began":"2026-03-04T23:30:00.000Z",` + fields + "}\n"
}

// A session and its answers were at one time, but for what a wrong time zone or a clock that was put right explains: a day.
// It makes no difference which of them comes first, or was there before.
func TestAnswersLieWithinTheirSession(t *testing.T) {
	at := func(when string) string {
		day := when[:len("2026-03-04")]
		return changed(map[string]any{"at": when, "day": day}).object
	}
	ended := `"ended":"2026-03-04T23:40:00.000Z","minutes":10`
	for _, c := range []struct{ session, when, says string }{
		{session(ended), "2026-03-04T23:35:00.000Z", ""},
		{session(ended), "2026-03-03T23:30:00.000Z", ""},
		{session(ended), "2026-03-05T23:40:00.000Z", ""},
		{session(ended), "2026-03-03T23:29:59.999Z", "at is 2026-03-03T23:29:59.999Z, more than a day before its session began, 2026-03-04T23:30:00.000Z"},
		{session(ended), "2026-03-05T23:40:00.001Z", "at is 2026-03-05T23:40:00.001Z, more than a day after its session ended, 2026-03-04T23:40:00.000Z"},
		{session(`"minutes":10`), "2026-03-09T23:40:00.000Z", ""}, // nobody knows when it ended
		{session(`"minutes":10`), "2026-03-01T23:40:00.000Z", "at is 2026-03-01T23:40:00.000Z, more than a day before"},
	} {
		f := inMemory(t, later)
		_, err := f.Import(strings.NewReader(c.session+at(c.when)), anything)
		if c.says == "" && err != nil || c.says != "" && (err == nil || !strings.HasPrefix(err.Error(), "line 2: "+c.says)) {
			t.Errorf("%s: %v, want %q", c.when, err, c.says)
		}
		if _, err := f.Import(strings.NewReader(c.session), anything); err != nil { // it is kept, the answer comes later
			t.Fatal(err)
		}
		if _, after := f.Import(strings.NewReader(at(c.when)), anything); (after == nil) != (c.says == "") {
			t.Errorf("%s, with the session kept: %v", c.when, after)
		}
		_, err = inMemory(t, later).Import(strings.NewReader(at(c.when)+c.session), anything)
		if c.says == "" && err != nil || c.says != "" && (err == nil || !strings.HasPrefix(err.Error(), "line 2: ") || !strings.Contains(err.Error(), " denies an answer of this session, which was given at ")) {
			t.Errorf("%s, the session last: %v", c.when, err)
		}
	}
	// The end of a session that is kept comes with an import, and an answer of the same import is later.
	f := inMemory(t, later)
	for export, says := range map[string]string{session(`"minutes":10`): "", at("2026-03-07T23:40:00.000Z") + session(ended): "line 2: ended denies an answer of this session, which was given at 2026-03-07T23:40:00.000Z, more than a day after its session ended, 2026-03-04T23:40:00.000Z"} {
		f := f
		if says != "" {
			if _, err := f.Import(strings.NewReader(session(`"minutes":10`)), anything); err != nil {
				t.Fatal(err)
			}
		}
		if _, err := f.Import(strings.NewReader(export), anything); says == "" && err != nil || says != "" && (err == nil || !strings.HasPrefix(err.Error(), says)) {
			t.Errorf("%v, want %q", err, says)
		}
	}
}

// What is doubted is not held to the times of its session: an answer that is, those of a session that is, and all of an export
// of an earlier version, which does not say.
func TestDoubtedTimesAreNotHeldToTheirSession(t *testing.T) {
	far := map[string]any{"at": "2036-03-04T23:35:00.000Z", "day": "2036-03-04"}
	with := func(more string, value any) map[string]any {
		fields := map[string]any{more: value}
		for field, value := range far {
			fields[field] = value
		}
		return fields
	}
	ended := `"ended":"2026-03-04T23:40:00.000Z","minutes":10`
	for _, c := range []struct {
		session string
		answer  asLines
		refused bool
	}{
		{session(ended), changed(far), true},
		{session(ended), changed(with("doubted", true)), false},
		{session(ended), changed(with("doubted", nil)), false},
		{session(ended + `,"doubted":true`), changed(far), false},
		{session(ended + `,"doubted":false`), changed(far), true},
		{session(`"ended":"2001-03-04T23:40:00.000Z","minutes":10,"doubted":true`), changed(far), false},
		{strings.Replace(session(`"minutes":10`), "2026", "2000", 1), changed(far), false}, // nobody has set that clock
	} {
		for _, export := range []string{c.session + c.answer.object, c.answer.object + c.session} {
			if _, err := inMemory(t, later).Import(strings.NewReader(export), anything); (err != nil) != c.refused {
				t.Errorf("%s: %v", export, err)
			}
		}
		f := inMemory(t, later)
		if _, err := f.Import(strings.NewReader(session(ended)), anything); err != nil {
			t.Fatal(err)
		}
		if c.session == session(ended) {
			if _, err := f.Import(strings.NewReader(c.answer.csv), anything); (err != nil) != c.refused {
				t.Errorf("%s: %v", c.answer.csv, err)
			}
		}
	}
	// Where a spreadsheet has translated the word, it says nothing.
	for word, refused := range map[string]bool{"FALSE": true, "TRUE": false, "WAHR": false, "FALSCH": false} {
		f := inMemory(t, later)
		if _, err := f.Import(strings.NewReader(session(ended)), anything); err != nil {
			t.Fatal(err)
		}
		if _, err := f.Import(strings.NewReader(strings.Replace(changed(far).csv, ",false", ","+word, 1)), anything); (err != nil) != refused {
			t.Errorf("%s: %v", word, err)
		}
	}
}

// Whatever a clock did in the midst of a session, one's own export is taken in.
func TestOwnExportsAreTakenIn(t *testing.T) {
	const day = 24 * time.Hour
	for _, hands := range [][]time.Duration{ // when it began, two answers, when it ended
		{0, 0, 0, 0}, {0, 10 * 365 * day, 0, 0}, {0, 10 * day, 10 * day, 0}, {10 * day, 0, 0, 0}, {3 * day, 3 * day, 0, 0}, {0, 0, 0, -3 * day}, {0, 0, 0, 3650 * day}, {0, -9000 * day, 0, 0}, {3650 * day, 0, 10 * day, -day * 9500},
	} {
		f := inMemory(t, later)
		practised(t, f, -5, 3, 3, 1)
		if err := f.Begin(progress.Session{ID: "s", Began: evening.Add(hands[0]), Minutes: time.Minute}); err != nil {
			t.Fatal(err)
		}
		for _, hand := range hands[1:3] {
			if err := f.Record(progress.Answer{Session: "s", Item: "d/t/u", Drill: "d", At: evening.Add(hand), Result: progress.Right}); err != nil {
				t.Fatal(err)
			}
		}
		if err := f.End("s", evening.Add(hands[3])); err != nil {
			t.Fatal(err)
		}
		asJSON, asCSV := bothExports(t, f)
		for _, export := range []string{asJSON, asCSV} {
			g := inMemory(t, later)
			if got, err := g.Import(strings.NewReader(export), anything); err != nil || got.Added != 11 {
				t.Errorf("%v: %+v, %v", hands, got, err)
			}
			if got, err := g.Import(strings.NewReader(asJSON), anything); err != nil || got.Known != 11 {
				t.Errorf("%v: %+v, %v", hands, got, err)
			}
		}
	}
}

// What a session says is held together, and named by its field.
func TestSessionsThatAreRefused(t *testing.T) {
	for _, c := range []struct{ old, new, says string }{
		{`"id":"s",`, ``, "id is missing; every export has it"},
		{`"id":"s"`, `"id":""`, "id is a line of 1 to 1000 bytes"},
		{`"id":"s"`, `"id":"\u001b[2J"`, "id is a line of 1 to 1000 bytes"},
		{`"id":"s"`, `"id":5`, "id is a text in double quotes"},
		{`"began":"2026-03-04T23:30:00.000Z",`, ``, "began is missing"},
		{`"began":"2026-03-04T23:30:00.000Z"`, `"began":5`, "began is a text in double quotes"},
		{`"began":"2026-03-04T23:30:00.000Z"`, `"began":"at noon"`, `began is a time such as 2026-03-04T18:30:00.000Z, not "at noon"`},
		{`"ended":"2026-03-04T23:40:00.000Z"`, `"ended":"2026-03-03T23:29:59.999Z"`, "ended is 2026-03-03T23:29:59.999Z, and that is before it began, 2026-03-04T23:30:00.000Z"},
		{`"ended":"2026-03-04T23:40:00.000Z"`, `"ended":"2026-03-03T23:30:00.000Z"`, ""}, // a clock was put right
		{`"ended":"2026-03-04T23:40:00.000Z"`, `"ended":null`, ""},
		{`"ended":"2026-03-04T23:40:00.000Z",`, ``, ""},
		{`"ended":"2026-03-04T23:40:00.000Z"`, `"ended":"late"`, "ended is a time"},
		{`,"minutes":10`, ``, "minutes is missing"},
		{`"minutes":10`, `"minutes":"ten"`, "minutes is a number without quotes, from 0 to 1440"},
		{`"minutes":10`, `"minutes":null`, "minutes is a number without quotes, from 0 to 1440"},
		{`"minutes":10`, `"minutes":-1`, "minutes is a number without quotes, from 0 to 1440"},
		{`"minutes":10`, `"minutes":1441`, "minutes is a number without quotes, from 0 to 1440"},
		{`"minutes":10`, `"minutes":1440`, ""},
		{`"minutes":10`, `"minutes":10,"doubted":"no"`, "doubted is true or false, without quotes"},
	} {
		line := session(`"ended":"2026-03-04T23:40:00.000Z","minutes":10`)
		if !strings.Contains(line, c.old) {
			t.Fatalf("no %s", c.old)
		}
		_, err := inMemory(t, later).Import(strings.NewReader(strings.Replace(line, c.old, c.new, 1)), anything)
		if c.says == "" && err != nil || c.says != "" && (err == nil || !strings.HasPrefix(err.Error(), "line 1: "+c.says)) {
			t.Errorf("%s: %v, want %q", c.new, err, c.says)
		}
	}
	// A session that is kept is the same, but for an end that it has not yet.
	f := inMemory(t, later)
	if err := f.Begin(progress.Session{ID: "s", Began: evening, Minutes: 10 * time.Minute}); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ line, says string }{
		{session(`"minutes":10`), ""},
		{session(`"minutes":11`), "line 1: minutes is another than that of the session which is kept under the id s"},
		{strings.Replace(session(`"minutes":10`), "23:30", "23:31", 1), "line 1: began is another"},
		{session(`"ended":"2026-03-04T23:40:00.000Z","minutes":10`), ""},
		{session(`"minutes":10`), ""},
		{session(`"ended":"2026-03-04T23:41:00.000Z","minutes":10`), "line 1: ended is another"},
		{session(`"ended":"2026-03-04T23:40:00.000Z","minutes":10`) + session(`"ended":"2026-03-04T23:42:00.000Z","minutes":10`), "line 2: ended is another"},
	} {
		if _, err := f.Import(strings.NewReader(c.line), anything); c.says == "" && err != nil || c.says != "" && (err == nil || !strings.HasPrefix(err.Error(), c.says)) {
			t.Errorf("%s: %v, want %q", c.line, err, c.says)
		}
	}
	sessions, err := f.Sessions()
	if err != nil || len(sessions) != 1 || !sessions[0].Ended.Equal(evening.Add(10*time.Minute)) {
		t.Errorf("%+v, %v", sessions, err)
	}
	sound(t, f, 0)
}

// Counts and results that deny each other are refused by name.
func TestCountsThatDenyEachOther(t *testing.T) {
	for _, c := range []struct {
		fields map[string]any
		says   string
	}{
		{map[string]any{"result": "right"}, "taken_for is d/major/u, but result is right"},
		{map[string]any{"result": "right", "taken_for": ""}, ""},
		{map[string]any{"result": "right", "taken_for": "d/t/u"}, ""},
		{map[string]any{"result": "partly"}, ""},
		{map[string]any{"voice": ""}, "replays is 1, but voice is empty"},
		{map[string]any{"voice": "", "replays": 0}, ""},
	} {
		lines := changed(c.fields)
		for n, export := range []string{lines.object, lines.csv} {
			_, err := inMemory(t, later).Import(strings.NewReader(export), anything)
			if want := fmt.Sprintf("line %d: %s", n+1, c.says); c.says == "" && err != nil || c.says != "" && (err == nil || !strings.HasPrefix(err.Error(), want)) {
				t.Errorf("%v: %v, want %q", c.fields, err, c.says)
			}
		}
	}
}
