package store

import (
	"bytes"
	"database/sql"
	"encoding/binary"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"sparetone/progress/pages"
	"sparetone/progress/tables"
)

// soundBytes returns the bytes of a progress file with some answers in it.
func soundBytes(t *testing.T) []byte {
	t.Helper()
	path := filepath.Join(t.TempDir(), "progress.db")
	f := openAt(t, path, evening)
	practised(t, f, 0, 3, 40, 1)
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	all, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// foreign returns an SQLite file of some other program.
func foreign(t *testing.T) []byte {
	t.Helper()
	path := filepath.Join(t.TempDir(), "letters.db")
	db, err := sql.Open("sqlite", path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if _, err := db.Exec("CREATE TABLE letters (text); INSERT INTO letters VALUES ('dear teacher')"); err != nil {
		t.Fatal(err)
	}
	all, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func TestWhatIsNoProgressFileIsLeftAlone(t *testing.T) {
	good := soundBytes(t)
	newer := bytes.Clone(good)
	binary.BigEndian.PutUint32(newer[pages.UserVersionAt:], uint32(len(tables.Migrations)+1))
	for _, c := range []struct {
		what  string
		bytes []byte
		says  string
	}{
		{"rubbish", bytes.Repeat([]byte("rubbish "), 1000), "not a progress file"},
		{"one byte", []byte{0}, "not a progress file"},
		{"a header and no more", good[:pages.HeaderSize], "cut short"},
		{"half a file", good[:len(good)/2], "cut short"},
		{"another program's file", foreign(t), "another program"},
		{"a newer schema", newer, "newer sparetone"},
	} {
		path := filepath.Join(t.TempDir(), "progress.db")
		if err := os.WriteFile(path, c.bytes, 0o600); err != nil {
			t.Fatal(err)
		}
		f, err := Open(path, clockAt(evening))
		if err == nil {
			f.Close()
			t.Errorf("%s was opened", c.what)
			continue
		}
		if !strings.Contains(err.Error(), c.says) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v, want one line with %q", c.what, err, c.says)
		}
		leftAlone(t, c.what, path, c.bytes)
	}
}

// leftAlone checks that a file is as it was, with nothing new beside it.
func leftAlone(t *testing.T, what, path string, was []byte) {
	t.Helper()
	is, err := os.ReadFile(path)
	if err != nil || !bytes.Equal(is, was) {
		t.Errorf("%s: the file has changed (%v)", what, err)
	}
	beside, err := os.ReadDir(filepath.Dir(path))
	if err != nil || len(beside) != 1 {
		t.Errorf("%s: there is more in the folder than before: %v, %v", what, beside, err)
	}
}

func TestRubbishInsideIsFoundByCheck(t *testing.T) {
	broken := soundBytes(t)
	for i := len(broken) / 2; i < len(broken)/2+5000; i++ {
		broken[i] ^= 0x5a
	}
	path := filepath.Join(t.TempDir(), "progress.db")
	if err := os.WriteFile(path, broken, 0o600); err != nil {
		t.Fatal(err)
	}
	f, err := Open(path, clockAt(evening))
	if err != nil {
		return // found even sooner
	}
	defer f.Close()
	if h, err := f.Check(); err == nil && len(h.Damaged) == 0 {
		t.Errorf("not found: %+v", h)
	}
	t.Error("it was opened")
}

func TestDerivedTablesThatWereTamperedWithAreFoundAndMended(t *testing.T) {
	for _, harm := range []string{
		"UPDATE memory SET due = due + 1 WHERE item = 1",
		"DELETE FROM weeks WHERE item = 2",
		"UPDATE mistakes SET times = times + 1",
		"UPDATE pace SET took = '[]'",
	} {
		f := inMemory(t, evening)
		practised(t, f, 0, 3, 40, 1)
		sound(t, f, 120)
		if _, err := f.db.Exec(harm); err != nil {
			t.Fatal(err)
		}
		if h, err := f.Check(); err != nil || !h.Stale {
			t.Errorf("%s: %+v, %v", harm, h, err)
		}
		if err := f.Rebuild(); err != nil {
			t.Fatal(err)
		}
		sound(t, f, 120)
	}
}

func TestThereIsNoFolderWhereAFileIs(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{filepath.Join(file, "progress.db"), filepath.Dir(file)} {
		if _, err := Open(path, clockAt(evening)); err == nil || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v", path, err)
		}
	}
}

func TestPracticeInMemoryCanBeSaved(t *testing.T) {
	f := inMemory(t, evening)
	practised(t, f, 0, 2, 10, 1)
	want, _ := bothExports(t, f)
	path := filepath.Join(t.TempDir(), "new", "progress.db")
	if err := f.SaveAs(path); err != nil {
		t.Fatal(err)
	}
	if err := f.SaveAs(path); err == nil {
		t.Error("saved over a file")
	}
	g := openAt(t, path, evening)
	if got, _ := bothExports(t, g); got != want {
		t.Error("what was saved is not what was practised")
	}
	sound(t, g, 20)
	about, err := os.Stat(path)
	if err != nil || about.Mode().Perm() != 0o600 {
		t.Errorf("mode %v, %v", about.Mode(), err)
	}
}

// What looks cut short may only be waiting for SQLite to make it what it was from a journal.
func TestAJournalMakesAFileWhole(t *testing.T) {
	good := soundBytes(t)
	path := filepath.Join(t.TempDir(), "progress.db")
	for name, bytes := range map[string][]byte{path: good[:len(good)/2], path + "-journal": []byte("a journal")} {
		if err := os.WriteFile(name, bytes, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if err := inspect(path); err != nil {
		t.Errorf("with a journal: %v", err)
	}
	if err := os.Truncate(path+"-journal", 0); err != nil {
		t.Fatal(err)
	}
	if err := inspect(path); err == nil {
		t.Error("with an empty journal it passes for whole")
	}
}
