package store

import (
	"path/filepath"
	"testing"
)

// A file from before lessons were kept with answers is brought up to date, its answers are for no lesson, and new ones may be.
func TestAFileWithoutLessons(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	f := openAt(t, path, later)
	practised(t, f, 0, 2, 5, 1)
	was, _ := bothExports(t, f)
	if _, err := f.db.Exec(backTo(8)); err != nil {
		t.Fatal(err)
	}
	f.Close()
	f = openAt(t, path, later)
	sound(t, f, 10)
	if now, _ := bothExports(t, f); now != was {
		t.Error("its answers are others")
	}
	practised(t, f, 2, 1, 5, 2)
	var of int
	if err := f.db.QueryRow("SELECT count(*) FROM answers WHERE lesson <> '' AND step <> ''").Scan(&of); err != nil || of != 0 {
		t.Error(of, err)
	}
	practised(t, f, 3, 3, 5, 3)
	sound(t, f, 30)
	if err := f.db.QueryRow("SELECT count(*) FROM answers WHERE lesson <> '' AND step <> ''").Scan(&of); err != nil || of != 5 {
		t.Error(of, err)
	}
}
