package store

import (
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/exchange"
	"sparetone/progress/tables"

	"github.com/google/go-cmp/cmp"
)

// contents returns all that a file holds but the numbers of its rows, a line each.
func contents(t *testing.T, f *File) (lines []string) {
	t.Helper()
	for _, query := range []string{
		"SELECT 'setting', key, value FROM settings WHERE key NOT LIKE 'undone/%' AND key NOT LIKE 'taken-back/%' ORDER BY key", // what is told to other machines, and that it was
		"SELECT 'session', id, began, ended, minutes, seal, import FROM sessions ORDER BY id",
		"SELECT 'item', id, drill FROM items ORDER BY id",
		`SELECT 'answer', hex(answers.id), session, a.id, a.drill, seed, at, day, question, given, expected, b.id, result, took, replays, hints, voice, seal, choices, import, rung, lesson, step, played, offered, chosen
			FROM answers JOIN items a ON a.n = item LEFT JOIN items b ON b.n = taken_for ORDER BY answers.n`,
		"SELECT 'memory', id, stability, difficulty, day, due, asked, held, run, luck, rung, told FROM memory JOIN items ON n = item ORDER BY id",
		"SELECT 'week', id, week, asked, held, guessed FROM weeks JOIN items ON n = item ORDER BY id, week",
		"SELECT 'mistake', a.id, b.id, week, times FROM mistakes JOIN items a ON a.n = item JOIN items b ON b.n = taken_for ORDER BY a.id, b.id, week",
		"SELECT 'pace', drill, took, cycle FROM pace ORDER BY drill",
		"SELECT 'fit', answers, weights FROM fit",
	} {
		err := tables.Each(f.db, query, nil, func(row *sql.Rows) error {
			columns, err := row.Columns()
			if err != nil {
				return err
			}
			values := make([]any, len(columns))
			into := make([]any, len(columns))
			for i := range values {
				into[i] = &values[i]
			}
			err = row.Scan(into...)
			lines = append(lines, fmt.Sprint(values...))
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return lines
}

// exportOf returns the export of somebody who practised at other times.
func exportOf(t *testing.T, from, sessions int, seed uint64) string {
	t.Helper()
	f := inMemory(t, later)
	practised(t, f, from, sessions, 12, seed)
	asJSON, _ := bothExports(t, f)
	return asJSON
}

// takeIn imports an export under a name.
func takeIn(t *testing.T, f *File, from, export string) exchange.Imported {
	t.Helper()
	how := anything
	how.From = from
	got, err := f.Import(strings.NewReader(export), how)
	if err != nil {
		t.Fatalf("%s: %v", from, err)
	}
	return got
}

// takeBack undoes an import and returns what it was.
func takeBack(t *testing.T, f *File) exchange.Import {
	t.Helper()
	undone, err := f.UndoImport()
	if err != nil {
		t.Fatal(err)
	}
	return undone
}

// Undone is one import at a time, the latest first; after each the file is in every table what it was before it.
func TestUndoTakesBackTheLatestImport(t *testing.T) {
	f := inMemory(t, later)
	practised(t, f, 2, 2, 12, 1)
	if err := f.Begin(progress.Session{ID: "open", Began: evening, Minutes: time.Minute}); err != nil {
		t.Fatal(err)
	}
	before := contents(t, f)
	first := exportOf(t, 0, 3, 2)
	a := takeIn(t, f, "first.jsonl", first)
	between := contents(t, f)
	f.now = clockAt(later.Add(time.Hour))
	closed := `{"kind":"session","id":"open","began":"2026-03-04T23:30:00.000Z","ended":"2026-03-04T23:40:00.000Z","minutes":1}` + "\n"
	b := takeIn(t, f, "second.jsonl", exportOf(t, 1, 4, 3)+first+closed)
	if a.Added != 36 || a.Sessions != 3 || b.Added != 48 || b.Known != 36 || b.Sessions != 4 || a.ID == "" || a.ID == b.ID {
		t.Errorf("%+v\n%+v", a, b)
	}
	sound(t, f, 108)
	var want []exchange.Import
	for _, i := range []exchange.Import{{ID: b.ID, From: "second.jsonl", At: later.Add(time.Hour).UTC(), Answers: 48, Sessions: 4}, {ID: a.ID, From: "first.jsonl", At: later.UTC(), Answers: 36, Sessions: 3}} {
		want = append(want, i)
	}
	got, err := f.Imports()
	if err != nil {
		t.Fatal(err)
	}
	for i := range got {
		got[i].Items = 0
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if undone := takeBack(t, f); undone.ID != b.ID || undone.From != "second.jsonl" || undone.Answers != 48 {
		t.Errorf("%+v", undone)
	}
	if diff := cmp.Diff(between, contents(t, f)); diff != "" {
		t.Error(diff)
	}
	if undone := takeBack(t, f); undone.ID != a.ID {
		t.Errorf("%+v", undone)
	}
	if diff := cmp.Diff(before, contents(t, f)); diff != "" {
		t.Error(diff)
	}
	sound(t, f, 24)
	if _, err := f.UndoImport(); err != ErrNoImport {
		t.Errorf("%v", err)
	}
	if again := takeIn(t, f, "first.jsonl", first); again.Added != 36 {
		t.Errorf("%+v", again)
	}
}

// Items that only an import speaks of are counted and go; those that were only ever named by mistake are that again.
func TestUndoTakesItemsThatNothingSpeaksOf(t *testing.T) {
	f := inMemory(t, later)
	if err := f.Record(progress.Answer{Item: "d/own/u", Drill: "d", At: evening, Result: progress.Wrong, TakenFor: "d/named/u"}); err != nil {
		t.Fatal(err)
	}
	g := inMemory(t, later)
	for _, a := range []progress.Answer{{Item: "d/named/u", Result: progress.Right}, {Item: "d/new/u", Result: progress.Wrong, TakenFor: "d/newer/u"}, {Item: "d/own/u", Result: progress.Right}} {
		a.Drill, a.At = "d", evening
		if err := g.Record(a); err != nil {
			t.Fatal(err)
		}
	}
	before := contents(t, f)
	export, _ := bothExports(t, g)
	takeIn(t, f, "export", export)
	if undone := takeBack(t, f); undone.Items != 2 || undone.Answers != 3 || undone.Sessions != 0 {
		t.Errorf("%+v, want 3 answers, and the items d/new/u and d/newer/u", undone)
	}
	if diff := cmp.Diff(before, contents(t, f)); diff != "" {
		t.Error(diff)
	}
}

// What was answered since stays, and so does a session of the import in which it was answered: that is then the file's
// own.
func TestUndoKeepsWhatWasAnsweredSince(t *testing.T) {
	f := inMemory(t, later)
	practised(t, f, 0, 1, 5, 1)
	got := takeIn(t, f, "export", `{"kind":"session","id":"s","began":"2026-03-04T23:30:00.000Z","minutes":10}`+"\n"+exportOf(t, 1, 1, 2))
	if got.Sessions != 2 {
		t.Fatalf("%+v", got)
	}
	practised(t, f, 3, 1, 7, 3)
	if err := f.Record(progress.Answer{Session: "s", Item: "d1/t1/u", Drill: "d1", At: evening, Result: progress.Right}); err != nil {
		t.Fatal(err)
	}
	takeBack(t, f)
	sound(t, f, 13)
	var tagged int
	if err := f.db.QueryRow("SELECT (SELECT count(*) FROM answers WHERE import <> '') + (SELECT count(*) FROM sessions WHERE import <> '')").Scan(&tagged); err != nil || tagged > 0 {
		t.Errorf("%d rows are still the import's, %v", tagged, err)
	}
	sessions, err := f.Sessions()
	if err != nil || !slices.ContainsFunc(sessions, func(s progress.Session) bool { return s.ID == "s" }) || len(sessions) != 3 {
		t.Errorf("%+v, %v", sessions, err)
	}
}

// A session of which the import said when it ended is open again, unless it has ended here since.
func TestUndoOpensASessionAgain(t *testing.T) {
	for _, here := range []bool{false, true} {
		f := inMemory(t, later)
		if err := f.Begin(progress.Session{ID: "s", Began: evening, Minutes: time.Minute}); err != nil {
			t.Fatal(err)
		}
		takeIn(t, f, "export", `{"kind":"session","id":"s","began":"2026-03-04T23:30:00.000Z","ended":"2026-03-04T23:40:00.000Z","minutes":1}`)
		if here {
			if err := f.End("s", evening.Add(time.Hour)); err != nil {
				t.Fatal(err)
			}
		}
		takeBack(t, f)
		sound(t, f, 0)
		sessions, err := f.Sessions()
		if err != nil || len(sessions) != 1 || sessions[0].Ended.IsZero() == here {
			t.Errorf("%+v, %v", sessions, err)
		}
	}
}

// Weights that were fitted to answers which are gone go with them; those from before the import stay.
func TestUndoAndTheFit(t *testing.T) {
	for _, c := range []struct{ before, after, want int }{{24, 24, 24}, {0, 36, 0}, {24, 36, 0}} {
		f := inMemory(t, later)
		practised(t, f, 0, 2, 12, 1)
		fit := func(answers int) {
			if _, err := f.db.Exec("DELETE FROM fit"); err != nil {
				t.Fatal(err)
			}
			if answers > 0 {
				if _, err := f.db.Exec("INSERT INTO fit VALUES (?, '')", answers); err != nil {
					t.Fatal(err)
				}
			}
		}
		fit(c.before)
		takeIn(t, f, "export", exportOf(t, 5, 1, 2))
		fit(c.after)
		takeBack(t, f)
		var answers int
		if err := f.db.QueryRow("SELECT coalesce(max(answers), 0) FROM fit").Scan(&answers); err != nil || answers != c.want {
			t.Errorf("fitted to %d, then to %d: now to %d, %v, want %d", c.before, c.after, answers, err, c.want)
		}
	}
}

// Before an import and before an undo the file is copied, each time, and the copy is what it was.
func TestCopiesBeforeImportsAndUndos(t *testing.T) {
	f := openAt(t, filepath.Join(t.TempDir(), "progress.db"), later)
	practised(t, f, 0, 1, 5, 1)
	first := takeIn(t, f, "first", exportOf(t, 1, 1, 2))
	second := takeIn(t, f, "second", exportOf(t, 2, 1, 3)) // in the same second
	takeBack(t, f)
	var before []string
	answers := map[string]int{}
	for _, c := range CopiesOf(f.Path()) {
		if err := prove(c.Path, 0); err != nil {
			t.Errorf("%s: %v", c.Path, err)
		}
		g, err := OpenToRead(c.Path, clockAt(later))
		if err != nil {
			t.Fatal(err)
		}
		h, _ := g.Check()
		before, answers[c.Path] = append(before, c.Before), h.Answers
		g.Close()
	}
	if want := []string{"import", "undo", "import"}; !slices.Equal(before, want) || len(answers) != 3 {
		t.Errorf("copies before %q, want %q", before, want)
	}
	if answers[first.Copy] != 5 || answers[second.Copy] != 17 {
		t.Errorf("%v, want 5 in %s and 17 in %s", answers, first.Copy, second.Copy)
	}
	left, err := f.Imports()
	if err != nil || len(left) != 1 || left[0].Copy != first.Copy {
		t.Errorf("%+v, %v", left, err)
	}
	// Nothing is copied for an import that adds nothing, nor kept of it.
	if again := takeIn(t, f, "first", exportOf(t, 1, 0, 2)+onlyOf(t, f, first)); again.Added != 0 || again.Known != 12 || again.ID != "" || again.Copy != "" {
		t.Errorf("%+v", again)
	}
	if left, err := f.Imports(); err != nil || len(left) != 1 || len(CopiesOf(f.Path())) != 3 {
		t.Errorf("%+v, %v", left, err)
	}
}

// onlyOf returns the export of what came with an import.
func onlyOf(t *testing.T, f *File, i exchange.Imported) string {
	t.Helper()
	all, _ := bothExports(t, f)
	var lines strings.Builder
	err := tables.Answers(f.db, func(k tables.AnswerRow) error {
		if k.Import == i.ID {
			for line := range strings.Lines(all) {
				if strings.Contains(line, fmt.Sprintf("%x", k.ID)) {
					lines.WriteString(line)
				}
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return lines.String()
}

// Where no copy can be made, nothing is imported and nothing taken back.
func TestWithoutACopyNothingIsChanged(t *testing.T) {
	f := openAt(t, filepath.Join(t.TempDir(), "progress.db"), later)
	practised(t, f, 0, 1, 5, 1)
	f.aside.Wait()
	takeIn(t, f, "first", exportOf(t, 1, 1, 2))
	before := contents(t, f)
	folder := filepath.Join(filepath.Dir(f.Path()), copyFolder)
	if err := os.RemoveAll(folder); err != nil {
		t.Fatal(err)
	}
	write(t, folder, []byte("a letter"))
	_, importing := f.Import(strings.NewReader(exportOf(t, 2, 1, 3)), anything)
	_, undoing := f.UndoImport()
	for _, err := range []error{importing, undoing} {
		if err == nil || !strings.HasPrefix(err.Error(), "no folder for copies") {
			t.Errorf("%v", err)
		}
	}
	if diff := cmp.Diff(before, contents(t, f)); diff != "" {
		t.Error(diff)
	}
}

// An import can be taken back out of a file that was restored or rescued as well.
func TestUndoAfterRescueAndRestore(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	f := openAt(t, path, later)
	practised(t, f, 0, 1, 5, 1)
	takeIn(t, f, "export", exportOf(t, 1, 2, 2))
	if _, err := f.Backup(); err != nil {
		t.Fatal(err)
	}
	practised(t, f, 5, 1, 3, 3)
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := Rescue(path, path+".new", clockAt(later)); err != nil {
		t.Fatal(err)
	}
	if _, err := Restore(path, "", clockAt(later)); err != nil {
		t.Fatal(err)
	}
	for _, at := range []string{path, path + ".new"} {
		f := openAt(t, at, later)
		sound(t, f, 32)
		if undone := takeBack(t, f); undone.Answers != 24 || undone.Sessions != 2 || undone.From != "export" {
			t.Errorf("%s: %+v", at, undone)
		}
		sound(t, f, 8)
		if sessions, err := f.Sessions(); err != nil || len(sessions) != 2 {
			t.Errorf("%s: %d sessions, %v", at, len(sessions), err)
		}
	}
}

// A note that no longer reads is that of an import all the same.
func TestUndoWithoutANote(t *testing.T) {
	f := inMemory(t, later)
	got := takeIn(t, f, "export", exportOf(t, 0, 1, 1))
	if err := f.SetSetting(exchange.ImportKey+got.ID, "rubbish"); err != nil {
		t.Fatal(err)
	}
	if undone := takeBack(t, f); undone.Answers != 12 || undone.From != "" {
		t.Errorf("%+v", undone)
	}
	sound(t, f, 0)
}

// Another program that imports meanwhile is not taken back instead.
func TestUndoTakesBackWhatItNamed(t *testing.T) {
	f := inMemory(t, later)
	takeIn(t, f, "export", exportOf(t, 0, 1, 1))
	named, err := f.Imports()
	if err != nil {
		t.Fatal(err)
	}
	takeIn(t, f, "another", exportOf(t, 1, 1, 2))
	if err := f.undo(named[0]); err == nil || errors.Is(err, ErrNoImport) {
		t.Errorf("%v", err)
	}
	sound(t, f, 24)
}
