package exchange

import (
	"bytes"
	"database/sql"
	"errors"
	"io"
	"strings"
	"testing"
	"time"

	"sparetone/progress/tables"

	"github.com/google/go-cmp/cmp"
)

// A table that a deed reads and that is not there is an error of the deed, never less of an export or of an import.
func TestATableThatIsMissingIsAnError(t *testing.T) {
	deeds := map[string]func(db *sql.DB) error{
		"write JSON": func(db *sql.DB) error { return WriteJSON(db, now, io.Discard) },
		"write CSV":  func(db *sql.DB) error { return WriteCSV(db, now, io.Discard) },
		"take in an answer": func(db *sql.DB) error {
			_, err := taken(db, answerWith(map[string]string{"id": `"ff112233445566778899aabbccddeeff"`, "session": `"t"`, "file": `"OTHER"`}), mine)
			return err
		},
		"take in a session": func(db *sql.DB) error {
			_, err := taken(db, strings.Replace(ofSession, `"id":"s"`, `"id":"u"`, 1), mine)
			return err
		},
		"list imports": func(db *sql.DB) error {
			return tables.Write(db, func(tx *sql.Tx) error { _, err := Imports(tx); return err })
		},
		"undo": func(db *sql.DB) error {
			return tables.Write(db, func(tx *sql.Tx) error {
				notes, err := notesIn(tx)
				if err != nil {
					return err
				}
				return Undo(tx, Import{ID: notes[0].id})
			})
		},
	}
	for deed, tablesRead := range map[string][]string{
		"write JSON":        {"answers", "items", "sessions", "settings", "doubts"},
		"write CSV":         {"answers", "items", "sessions", "settings", "doubts"},
		"take in an answer": {"answers", "items", "sessions", "settings", "memory", "fit"},
		"take in a session": {"answers", "sessions", "settings", "fit"},
		"list imports":      {"answers", "items", "sessions", "settings"},
		"undo":              {"answers", "items", "sessions", "settings", "memory", "weeks", "mistakes", "pace", "doubts", "fit"},
	} {
		for _, table := range tablesRead {
			db := fresh(t)
			if _, err := taken(db, ofSession+answerWith(nil), mine); err != nil {
				t.Fatal(err)
			}
			if _, err := db.Exec("DROP TABLE " + table); err != nil {
				t.Fatal(err)
			}
			if err := deeds[deed](db); err == nil {
				t.Errorf("%s without %s: no error", deed, table)
			}
		}
	}
}

// full takes so many bytes and no more.
type full struct{ room int }

var errFull = errors.New("full")

func (w *full) Write(p []byte) (int, error) {
	if len(p) > w.room {
		return 0, errFull
	}
	w.room -= len(p)
	return len(p), nil
}

func TestWhatCannotBeWrittenIsAnError(t *testing.T) {
	db := fresh(t)
	var export strings.Builder
	for range 400 {
		export.WriteString(ofSession)
	}
	for i := range 30 {
		export.WriteString(answerWith(map[string]string{"id": `"` + strings.Repeat(string("0123456789abcdef"[i%16]), 31) + string("0123456789abcdef"[i/16]) + `"`,
			"question": `"` + strings.Repeat("q", 900) + `"`}))
	}
	if _, err := taken(db, export.String(), mine); err != nil {
		t.Fatal(err)
	}
	for _, room := range []int{0, 5000, 10000} {
		if err := WriteJSON(db, now, &full{room}); !errors.Is(err, errFull) {
			t.Errorf("JSON, %d bytes: %v", room, err)
		}
		if err := WriteCSV(db, now, &full{room}); !errors.Is(err, errFull) {
			t.Errorf("CSV, %d bytes: %v", room, err)
		}
	}
}

// Texts are written as they are, with no sign made safe for pages of the web.
func TestSignsAreWrittenAsTheyAre(t *testing.T) {
	db := fresh(t)
	if _, err := taken(db, answerWith(map[string]string{"question": `"<b> & \u2028"`}), mine); err != nil {
		t.Fatal(err)
	}
	if got := written(t, db); !strings.Contains(got, `"<b> & `) {
		t.Error(got)
	}
}

// A copy is made only where something comes in; its name is kept with the import, and if it fails nothing comes in.
func TestTheCopyBeforeAnImport(t *testing.T) {
	db := fresh(t)
	take := func(copied func() (string, error)) (done Imported, err error) {
		err = tables.Write(db, func(tx *sql.Tx) error {
			done, err = TakeIn(tx, now, strings.NewReader(answerWith(nil)), mine, copied)
			return err
		})
		return done, err
	}
	if _, err := take(func() (string, error) { return "", errFull }); !errors.Is(err, errFull) || written(t, db) != "" {
		t.Errorf("a copy that failed: %v", err)
	}
	copies := 0
	copied := func() (string, error) { copies++; return "before.db", nil }
	if done, err := take(copied); err != nil || done.Copy != "before.db" {
		t.Errorf("%+v, %v", done, err)
	}
	if done, err := take(copied); err != nil || done.Copy != "" || copies != 1 {
		t.Errorf("again: %+v, %v, %d copies", done, err, copies)
	}
	if err := tables.Write(db, func(tx *sql.Tx) error {
		all, err := Imports(tx)
		if len(all) != 1 || all[0].Copy != "before.db" {
			t.Errorf("imports %+v", all)
		}
		return err
	}); err != nil {
		t.Error(err)
	}
}

// The lengths of a session, in minutes, are the same up to what decimals lose.
func TestMinutesAreComparedAsFarAsDecimalsGo(t *testing.T) {
	db := fresh(t)
	if _, err := taken(db, ofSession, mine); err != nil {
		t.Fatal(err)
	}
	for is, same := range map[string]bool{"10.00000095": true, "9.99999905": true, "10.00000105": false, "9.99999895": false} {
		if _, err := taken(db, strings.Replace(ofSession, `"minutes":10`, `"minutes":`+is, 1), mine); (err == nil) != same {
			t.Errorf("%s: %v", is, err)
		}
	}
}

// A session that comes after its answers is held to the first and to the last of them, in whatever order they came.
func TestASessionIsHeldToAllItsAnswers(t *testing.T) {
	at := func(id, at string) string {
		return answerWith(map[string]string{"id": `"` + id + `0112233445566778899aabbccddeeff"`, "at": `"` + at + `"`, "day": `"` + at[:10] + `"`})
	}
	within, before, after := at("1", "2026-03-04T18:31:00Z"), at("2", "2026-03-03T10:00:00Z"), at("3", "2026-03-06T10:00:00Z")
	for name, export := range map[string]string{"first before": before + within, "last before": within + before, "first after": after + within, "last after": within + after} {
		want := map[string]string{"before": "began denies", "after": "ended denies"}[name[strings.IndexByte(name, ' ')+1:]]
		if _, err := taken(fresh(t), export+ofSession, mine); err == nil || !strings.HasPrefix(err.Error(), "line 3: "+want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A session that came with an import, and in which the student of this file has answered since, stays when that import is taken
// back: it then is of where those answers came from.
func TestASessionWithAnswersStays(t *testing.T) {
	db := fresh(t)
	first, err := taken(db, answerWith(nil), mine)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := taken(db, ofSession, mine); err != nil {
		t.Fatal(err)
	}
	undone(t, db)
	var rows []tables.SessionRow
	if err := tables.SessionRows(db, "", nil, func(s tables.SessionRow) error { rows = append(rows, s); return nil }); err != nil {
		t.Fatal(err)
	}
	if len(rows) != 1 || rows[0].By != first.ID || rows[0].Seal.Int64 != rows[0].Sum() {
		t.Errorf("%+v, want one of the import %s", rows, first.ID)
	}
}

// Imports are counted, so that the order stays where a clock stands still.
func TestImportsAreListedLatestFirst(t *testing.T) {
	db := fresh(t)
	var ids []string
	for _, id := range []string{"1", "2", "3"} {
		done, err := taken(db, answerWith(map[string]string{"id": `"` + strings.Repeat(id, 32) + `"`}), mine)
		if err != nil {
			t.Fatal(err)
		}
		ids = append([]string{done.ID}, ids...)
	}
	if err := tables.Write(db, func(tx *sql.Tx) error {
		all, err := Imports(tx)
		var got []string
		for _, i := range all {
			got = append(got, i.ID)
		}
		if diff := cmp.Diff(ids, got); diff != "" {
			t.Error(diff)
		}
		return err
	}); err != nil {
		t.Error(err)
	}
}

// Answers that are taken back leave no gap in the numbers of those after them.
func TestUndoClosesTheGaps(t *testing.T) {
	db := fresh(t)
	if _, err := taken(db, answerWith(map[string]string{"at": `"2026-03-04T20:00:00Z"`}), mine); err != nil {
		t.Fatal(err)
	}
	if _, err := taken(db, answerWith(map[string]string{"id": `"ff112233445566778899aabbccddeeff"`, "at": `"2026-03-04T19:00:00Z"`}), mine); err != nil {
		t.Fatal(err)
	}
	undone(t, db)
	if err := tables.Answers(db, func(k tables.AnswerRow) error {
		if k.N != 1 || !k.At.Equal(time.Date(2026, time.March, 4, 20, 0, 0, 0, time.UTC)) {
			t.Errorf("answer %d, of %s", k.N, k.At)
		}
		return nil
	}); err != nil {
		t.Error(err)
	}
	var b bytes.Buffer
	if err := WriteCSV(db, now, &b); err != nil || strings.Count(b.String(), "\n") != 2 {
		t.Errorf("%v, %s", err, b.String())
	}
}
