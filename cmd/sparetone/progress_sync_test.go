package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"sparetone/cmd/sparetone/command"
	"sparetone/cmd/sparetone/records"
	"sparetone/progress/exchange"
)

// syncRows takes the rows of what --json printed apart: files, and what came of it all.
func syncRows(t *testing.T, out string) (files []records.SyncRow, all records.SyncedRow) {
	t.Helper()
	for line := range strings.Lines(out) {
		switch {
		case strings.HasPrefix(line, `{"part":"file"`):
			files = append(files, objects[records.SyncRow](t, line)...)
		case strings.HasPrefix(line, `{"part":"all"`):
			all = objects[records.SyncedRow](t, line)[0]
		}
	}
	return files, all
}

// A new machine goes on from another by one command, and from then on practice itself keeps the two alike, until it is told not
// to.
func TestSyncCommand(t *testing.T) {
	folder, desk, lap := t.TempDir(), practisedFile(t), filepath.Join(t.TempDir(), "lap", "progress.db")
	out, errs, ended := called(t, "", "progress", "sync", folder, "--json", "--progress", desk)
	files, all := syncRows(t, out)
	if ended != command.Done || len(files) != 0 || !all.Wrote || all.Folder != folder || !strings.HasPrefix(all.File, exchange.MachinePrefix) {
		t.Fatalf("ended %d with %s%s", ended, out, errs)
	}
	if _, err := os.Stat(filepath.Join(folder, all.File)); err != nil {
		t.Error(err)
	}
	out, errs, ended = called(t, "", "progress", "sync", folder, "--json", "--progress", lap)
	files, all = syncRows(t, out)
	if ended != command.Done || len(files) != 1 || files[0].Answers != 12 || files[0].Sessions != 1 || files[0].Own || files[0].Copy || files[0].Stale || files[0].Joined || files[0].Machine == "" || files[0].Whose.ID == "" ||
		!all.Goes || all.Answers != 12 || all.Sessions != 1 || all.Undone != 0 {
		t.Fatalf("ended %d with %s%s", ended, out, errs)
	}
	// What is practised on one is there when practice begins on the other, and goes back when it ends.
	for _, path := range []string{lap, desk} {
		if _, errs, ended := called(t, "1\nq\nyes\n", "practice", "--plain", "--silent", "--at-once", "--drill", "shape-name", "--progress", path); ended != command.Done {
			t.Fatalf("ended %d with %s", ended, errs)
		}
	}
	out, _, _ = called(t, "", "progress", "check", "--json", "--progress", desk)
	if rows := objects[records.CheckRow](t, out); rows[0].Answers != 14 || rows[0].Sessions != 3 {
		t.Error(out)
	}
	out, _, ended = called(t, "", "progress", "sync", "--progress", lap)
	if want := "1 answer and 1 session added"; ended != command.Done || !strings.Contains(out, want) || !strings.Contains(out, ": this machine's own\n") {
		t.Errorf("ended %d with %q", ended, out)
	}
	// What is wrong with a file is a line of its own, and the rest goes on.
	for name, text := range map[string]string{"sparetone-half.jsonl.gz": "\x1f\x8b\x08", "sparetone-notes.txt": "x\x1b[2J"} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	_, errs, ended = called(t, "", "progress", "sync", "--progress", lap)
	if ended != command.InputWrong || strings.Count(errs, "\n") != 2 || !strings.Contains(errs, "sparetone-half.jsonl.gz: it is not whole") || !strings.Contains(errs, "sparetone-notes.txt: this is no file of a machine's practice") {
		t.Errorf("ended %d with %q", ended, errs)
	}
	out, _, _ = called(t, "q\n", "practice", "--plain", "--silent", "--progress", lap)
	if !strings.Contains(out, "sparetone-half.jsonl.gz: it is not whole, as if it were carried over only in part; it is taken in once it is whole.") {
		t.Error(out)
	}
	// A folder that is gone is said, practice goes on, and the exit status tells it too.
	if err := os.RemoveAll(folder); err != nil {
		t.Fatal(err)
	}
	out, errs, ended = called(t, "q\n", "practice", "--plain", "--silent", "--progress", lap)
	if ended != command.Faulty || !strings.Contains(out, "Practice goes on, but is not kept alike with your other machines: folder "+folder) || !strings.Contains(errs, "not kept alike with your other machines: folder "+folder) {
		t.Errorf("ended %d with %s%s", ended, out, errs)
	}
	if _, errs, ended := called(t, "", "progress", "sync", "--progress", lap); ended != command.Faulty || strings.Count(errs, "\n") != 1 {
		t.Errorf("ended %d with %q", ended, errs)
	}
	if _, errs, ended := called(t, "", "progress", "sync", "--off", "--progress", lap); ended != command.Done || errs != "" {
		t.Errorf("ended %d with %q", ended, errs)
	}
	for _, call := range [][]string{{}, {"a", "b"}, {folder, "--off"}, {"--off", "--as-mine"}} {
		if _, errs, ended := called(t, "", append([]string{"progress", "sync", "--progress", lap}, call...)...); ended != command.WrongCall || strings.Count(errs, "\n") != 1 {
			t.Errorf("%q ended %d with %q", call, ended, errs)
		}
	}
	if _, _, ended := called(t, "q\n", "practice", "--plain", "--silent", "--progress", lap); ended != command.Done {
		t.Errorf("ended %d", ended)
	}
}

// Somebody else's practice is refused by name, and taken in when it is said to be one's own.
func TestSyncRefusesAnothers(t *testing.T) {
	folder, ann, ben := t.TempDir(), practisedFile(t), practisedFile(t)
	for path, name := range map[string]string{ann: "Ann", ben: "Ben"} {
		if _, errs, ended := called(t, "", "progress", "name", name, "--progress", path); ended != command.Done {
			t.Fatal(errs)
		}
	}
	if _, errs, ended := called(t, "", "progress", "sync", folder, "--progress", ben); ended != command.Done {
		t.Fatal(errs)
	}
	_, errs, ended := called(t, "", "progress", "sync", folder, "--progress", ann)
	if want := ": this is the practice of Ben and not yours, 12 answers; nothing of it was taken in; --as-mine takes it in as yours\n"; ended != command.InputWrong || !strings.HasSuffix(errs, want) {
		t.Errorf("ended %d with %q", ended, errs)
	}
	out, errs, ended := called(t, "", "progress", "sync", folder, "--as-mine", "--json", "--progress", ann)
	files, all := syncRows(t, out)
	if ended != command.Done || all.Answers != 12 || len(files) != 2 || files[0].Joined == files[1].Joined {
		t.Errorf("ended %d with %s%s", ended, out, errs)
	}
	// An empty file does not know whose it is to be.
	empty := filepath.Join(t.TempDir(), "progress.db")
	if _, errs, ended := called(t, "", "progress", "sync", folder, "--progress", empty); ended != command.Done && ended != command.InputWrong {
		t.Errorf("ended %d with %q", ended, errs)
	}
}
