package store

import (
	"path/filepath"
	"testing"
)

// A file from before it was kept whether an answer was played is brought up to date, its answers were typed as far as is known, and new ones
// may be played.
func TestAFileWithoutPlaying(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	f := openAt(t, path, later)
	practised(t, f, 0, 2, 5, 1)
	was, _ := bothExports(t, f)
	if _, err := f.db.Exec(backTo(11)); err != nil {
		t.Fatal(err)
	}
	f.Close()
	f = openAt(t, path, later)
	sound(t, f, 10)
	if now, _ := bothExports(t, f); now != was {
		t.Error("its answers are others")
	}
	practised(t, f, 3, 3, 5, 3) // of which those of the last session are played
	sound(t, f, 25)
	var of int
	if err := f.db.QueryRow("SELECT count(*) FROM answers WHERE played = 1").Scan(&of); err != nil || of != 5 {
		t.Error(of, err)
	}
}
