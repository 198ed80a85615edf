package store

import (
	"path/filepath"
	"testing"
)

// A file from before it was kept what there was to choose from is brought up to date, nothing of it is known of its answers, and of new ones it
// is kept.
func TestAFileWithoutWhatWasOffered(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	f := openAt(t, path, later)
	practised(t, f, 0, 2, 5, 1)
	was, _ := bothExports(t, f)
	if _, err := f.db.Exec(backTo(12)); err != nil {
		t.Fatal(err)
	}
	f.Close()
	f = openAt(t, path, later)
	sound(t, f, 10)
	if now, _ := bothExports(t, f); now != was {
		t.Error("its answers are others")
	}
	practised(t, f, 3, 3, 5, 3) // of which those of the last session tell of it where there are choices
	sound(t, f, 25)
	var chosen, free int
	if err := f.db.QueryRow("SELECT count(*) FILTER (WHERE choices > 0 AND offered <> '' AND chosen = choices), count(*) FILTER (WHERE choices = 0) FROM answers WHERE played = 1").Scan(&chosen, &free); err != nil || chosen == 0 || chosen+free != 5 {
		t.Error(chosen, free, err)
	}
}
