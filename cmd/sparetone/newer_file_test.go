package main

import (
	"bytes"
	"database/sql"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"sparetone/cmd/sparetone/command"

	_ "modernc.org/sqlite"
)

// A program that meets the file of a newer one says so in a line, and leaves it as it is, to the byte; practice goes on without
// being kept.
func TestANewerFileIsLeftAsItIs(t *testing.T) {
	path := practisedFile(t)
	db, err := sql.Open("sqlite", path)
	if err != nil {
		t.Fatal(err)
	}
	var version int
	if err := db.QueryRow("PRAGMA user_version").Scan(&version); err != nil {
		t.Fatal(err)
	}
	if _, err := db.Exec(fmt.Sprintf("PRAGMA journal_mode = DELETE; PRAGMA user_version = %d", version+1)); err != nil {
		t.Fatal(err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	was, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	export := filepath.Join(t.TempDir(), "export")
	says := fmt.Sprintf("a newer sparetone wrote it (schema %d, this one knows up to %d); it was left as it is", version+1, version)
	for _, call := range []string{"progress", "progress weak", "progress check", "progress export", "progress undo", "progress undo --list", "progress name", "progress name Ann", "progress backup",
		"progress sync " + t.TempDir(), "progress sync --off", "progress import " + export, "practice --plain --silent"} {
		out, errs, ended := called(t, "q\n", append(strings.Fields(call), "--progress", path)...)
		told, want := errs, command.Faulty
		if strings.HasPrefix(call, "practice") {
			told, want = out, command.Done // there was nothing to keep
		}
		if ended != want || strings.Count(told, says) != 1 || want == command.Faulty && strings.Count(errs, "\n") != 1 {
			t.Errorf("%s ended %d with %q, %q", call, ended, out, errs)
		}
		is, err := os.ReadFile(path)
		if err != nil || !bytes.Equal(is, was) {
			t.Fatalf("%s changed the file: %v", call, err)
		}
	}
	beside, err := os.ReadDir(filepath.Dir(path))
	if err != nil {
		t.Fatal(err)
	}
	for _, entry := range beside {
		if name := entry.Name(); name != filepath.Base(path) && name != "backups" {
			t.Errorf("%s was left beside it", name)
		}
	}
}
