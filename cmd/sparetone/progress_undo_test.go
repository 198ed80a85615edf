package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"sparetone/cmd/sparetone/command"
	"sparetone/cmd/sparetone/records"
	"sparetone/progress/store"
)

// exportFile writes the export of a progress file and returns where it lies.
func exportFile(t *testing.T, path string, flags ...string) string {
	t.Helper()
	export := filepath.Join(t.TempDir(), "ann.jsonl")
	if _, errs, ended := called(t, "", append([]string{"progress", "export", export, "--progress", path}, flags...)...); ended != command.Done {
		t.Fatal(errs)
	}
	return export
}

// What is taken back is named; one step after the other, until there is nothing left.
func TestUndoCommand(t *testing.T) {
	path := filepath.Join(t.TempDir(), "other.db")
	first, second := exportFile(t, practisedFile(t)), exportFile(t, practisedFile(t))
	text, err := os.ReadFile(second)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(second, []byte(strings.NewReplacer(`"id":"s"`, `"id":"other"`, `"session":"s"`, `"session":"other"`).Replace(string(text))), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, export := range []string{first, second} {
		out, errs, ended := called(t, "", "progress", "import", "--json", export, "--progress", path)
		rows := objects[records.ImportRow](t, out)
		if ended != command.Done || len(rows) != 1 || rows[0].Added != 12 || rows[0].Import == "" {
			t.Fatalf("ended %d with %s%s", ended, out, errs)
		}
		if _, err := os.Stat(rows[0].Copy); err != nil {
			t.Error(err)
		}
	}
	listed, _, ended := called(t, "", "progress", "undo", "--list", "--json", "--progress", path)
	rows := objects[records.UndoRow](t, listed)
	if ended != command.Done || len(rows) != 2 || rows[0].Input != second || rows[1].Input != first || rows[1].Answers != 12 || rows[1].Items != 0 || time.Since(rows[0].At) > time.Minute {
		t.Errorf("ended %d with %s", ended, listed)
	}
	if listed, _, _ := called(t, "", "progress", "undo", "--list", "--progress", path); strings.Count(listed, "\n") != 2 || !strings.HasPrefix(listed, "the import of "+second+" on ") {
		t.Error(listed)
	}
	out, _, ended := called(t, "", "progress", "undo", "--progress", path)
	if want := "Taken back: the import of " + second + " on " + time.Now().Format("2 January 2006 at "); ended != command.Done || !strings.HasPrefix(out, want) || !strings.HasSuffix(out, ", with 12 answers, 1 session and 0 items that nothing else speaks of.\n") {
		t.Errorf("ended %d with %q", ended, out)
	}
	out, _, ended = called(t, "", "progress", "undo", "--json", "--progress", path)
	if rows := objects[records.UndoRow](t, out); ended != command.Done || len(rows) != 1 || rows[0].Input != first || rows[0].Answers != 12 || rows[0].Items != 2 {
		t.Errorf("ended %d with %s", ended, out)
	}
	out, errs, ended := called(t, "", "progress", "undo", "--progress", path)
	if out != "" || errs != "" && strings.Count(errs, "\n") != 1 || ended != command.Faulty {
		t.Errorf("with nothing left it ended %d with %q, %q", ended, out, errs)
	}
	if out, _, ended := called(t, "", "progress", "check", "--progress", path); ended != command.Done || !strings.HasPrefix(out, "Sound: 0 answers") {
		t.Errorf("ended %d with %q", ended, out)
	}
	if _, _, ended := called(t, "", "progress", "undo", "--progress", path+".none"); ended != command.Faulty {
		t.Errorf("of no file it ended %d", ended)
	}
	if _, err := os.Stat(path + ".none"); err == nil {
		t.Error("it made a file")
	}
	f, err := store.Open(path, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	f.Close()
}

// An export with a fault is refused as a whole by file, line and field, as a line of text and as an object; others that were
// named with it are taken in.
func TestImportNamesFileLineAndField(t *testing.T) {
	good := exportFile(t, practisedFile(t))
	text, err := os.ReadFile(good)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.SplitAfter(string(text), "\n")
	for _, c := range []struct{ old, new, says string }{
		{`"drill":"chord-ear"`, `"drill":"spell"`, `line 4: drill is "spell", but the item chord-ear/dominant/ukulele belongs to the drill chord-ear; nothing was imported`},
		{`"taken_for":"chord-ear/major/ukulele"`, `"taken_for":"spell/major/ukulele"`, "line 4: taken_for is spell/major/ukulele, but an item is taken for another of its own drill, chord-ear/…; nothing was imported"},
		{`"voice":`, `"choir":`, "line 4: voice is missing; every export has it; nothing was imported"},
	} {
		wrong := filepath.Join(t.TempDir(), "wrong.jsonl")
		if err := os.WriteFile(wrong, []byte(strings.Join(lines[:3], "")+strings.Replace(lines[3], c.old, c.new, 1)+strings.Join(lines[4:], "")), 0o600); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), "other.db")
		out, errs, ended := called(t, "", "progress", "import", wrong, good, "--progress", path)
		if ended != command.InputWrong || out != "12 answers added, 0 were there already.\n" || errs != "sparetone: "+wrong+": "+c.says+"\n" {
			t.Errorf("ended %d with %q, %q", ended, out, errs)
		}
		out, _, ended = called(t, "", "progress", "import", "--json", good, wrong, "--progress", path)
		if rows := strings.Split(out, "\n"); ended != command.InputWrong || len(rows) != 3 || objects[records.ImportRow](t, rows[0])[0].Known != 12 || objects[command.Refused](t, rows[1])[0] != (command.Refused{Input: wrong, Error: c.says}) {
			t.Errorf("ended %d with %s", ended, out)
		}
	}
	if _, errs, ended := called(t, "", "progress", "import", good+".none", "--progress", filepath.Join(t.TempDir(), "other.db")); ended != command.Faulty || strings.Count(errs, "\n") > 1 {
		t.Errorf("a file that is not there: ended %d with %q", ended, errs)
	}
}
