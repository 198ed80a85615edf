package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"sparetone/progress"
)

// exportFile writes the export of a progress file and returns where it lies.
func exportFile(t *testing.T, path string, flags ...string) string {
	t.Helper()
	export := filepath.Join(t.TempDir(), "ann.jsonl")
	if _, errs, ended := called(t, "", append([]string{"progress", "export", export, "--progress", path}, flags...)...); ended != done {
		t.Fatal(errs)
	}
	return export
}

// What is taken back is named; one step after the other, until there is nothing left.
func TestUndoCommand(t *testing.T) {
	path := filepath.Join(t.TempDir(), "other.db")
	first, second := exportFile(t, practisedFile(t)), exportFile(t, practisedFile(t))
	for _, export := range []string{first, second} {
		out, errs, ended := called(t, "", "progress", "import", "--json", export, "--progress", path)
		rows := objects[importRow](t, out)
		if ended != done || len(rows) != 1 || rows[0].Added != 12 || rows[0].Import == "" {
			t.Fatalf("ended %d with %s%s", ended, out, errs)
		}
		if _, err := os.Stat(rows[0].Copy); err != nil {
			t.Error(err)
		}
	}
	listed, _, ended := called(t, "", "progress", "undo", "--list", "--json", "--progress", path)
	rows := objects[undoRow](t, listed)
	if ended != done || len(rows) != 2 || rows[0].Input != second || rows[1].Input != first || rows[1].Answers != 12 || rows[1].Items != 0 || time.Since(rows[0].At) > time.Minute {
		t.Errorf("ended %d with %s", ended, listed)
	}
	if listed, _, _ := called(t, "", "progress", "undo", "--list", "--progress", path); strings.Count(listed, "\n") != 2 || !strings.HasPrefix(listed, "the import of "+second+" on ") {
		t.Error(listed)
	}
	out, _, ended := called(t, "", "progress", "undo", "--progress", path)
	if want := "Taken back: the import of " + second + " on " + time.Now().Format("2 January 2006 at "); ended != done || !strings.HasPrefix(out, want) || !strings.HasSuffix(out, ", with 12 answers, 0 sessions and 0 items that nothing else speaks of.\n") {
		t.Errorf("ended %d with %q", ended, out)
	}
	out, _, ended = called(t, "", "progress", "undo", "--json", "--progress", path)
	if rows := objects[undoRow](t, out); ended != done || len(rows) != 1 || rows[0].Input != first || rows[0].Answers != 12 || rows[0].Items != 2 {
		t.Errorf("ended %d with %s", ended, out)
	}
	out, errs, ended := called(t, "", "progress", "undo", "--progress", path)
	if out != "" || errs != "" && strings.Count(errs, "\n") != 1 || ended != faulty {
		t.Errorf("with nothing left it ended %d with %q, %q", ended, out, errs)
	}
	if out, _, ended := called(t, "", "progress", "check", "--progress", path); ended != done || !strings.HasPrefix(out, "Sound: 0 answers") {
		t.Errorf("ended %d with %q", ended, out)
	}
	if _, _, ended := called(t, "", "progress", "undo", "--progress", path+".none"); ended != faulty {
		t.Errorf("of no file it ended %d", ended)
	}
	if _, err := os.Stat(path + ".none"); err == nil {
		t.Error("it made a file")
	}
	f, err := progress.Open(path, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	f.Close()
}
