package store

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"sparetone/progress"
)

// openWhole opens a progress file with 120 answers in it, in a folder of its own.
func openWhole(t *testing.T) (*File, string) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "folder", "progress.db")
	put(t, path, soundBytes(t))
	f := openAt(t, path, evening.AddDate(0, 0, 10))
	f.aside.Wait() // for the day's backup
	return f, path
}

// put puts a file in the place of whatever is there, as programs do that synchronise folders.
func put(t *testing.T, path string, bytes []byte) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path+".new", bytes, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(path+".new", path); err != nil {
		t.Fatal(err)
	}
}

// followed checks what Follow says, and that it says it once.
func followed(t *testing.T, f *File, says string) {
	t.Helper()
	if err := f.Follow(); err == nil || !strings.Contains(err.Error(), says) || strings.Contains(err.Error(), "\n") {
		t.Errorf("%v, want one line with %q", err, says)
	}
	if err := f.Follow(); err != nil {
		t.Errorf("said again: %v", err)
	}
}

func TestAFileThatIsTakenAwayIsWrittenAnew(t *testing.T) {
	for what, take := range map[string]func(path string) error{
		"all of it": func(path string) error {
			return errors.Join(os.Remove(path), os.Remove(path+"-wal"), os.Remove(path+"-shm"))
		},
		"all but its logs":  os.Remove,
		"its folder":        func(path string) error { return os.RemoveAll(filepath.Dir(path)) },
		"moved to a folder": func(path string) error { return os.Rename(filepath.Dir(path), filepath.Dir(path)+" of before") },
	} {
		t.Run(what, func(t *testing.T) {
			f, path := openWhole(t)
			practised(t, f, 11, 1, 2, 2)
			if err := take(path); err != nil {
				t.Fatal(err)
			}
			practised(t, f, 12, 1, 3, 3)
			followed(t, f, "was taken away; it was written anew")
			practised(t, f, 13, 1, 4, 4)
			if n, why := f.AtRisk(); n != 0 || why != nil {
				t.Errorf("%d answers at risk: %v", n, why)
			}
			sound(t, openAt(t, path, evening), 129) // while it is open, as after a kill
			if err := f.Close(); err != nil {
				t.Error(err)
			}
			sound(t, openAt(t, path, evening), 129)
		})
	}
}

func TestAnotherProgressFileInItsPlaceIsJoined(t *testing.T) {
	t.Parallel()
	for what, c := range map[string]struct {
		other             func(t *testing.T, f *File, path string) // writes it
		answers, sessions int                                      // that are there in the end
	}{
		"a copy of an hour ago": {func(t *testing.T, f *File, path string) {
			if err := f.SaveAs(path); err != nil {
				t.Fatal(err)
			}
		}, 129, 6},
		"one of another machine": {func(t *testing.T, f *File, path string) {
			other := openAt(t, path, evening)
			practised(t, other, 0, 30, 30, 9)
			other.Close()
		}, 909, 33},
	} {
		t.Run(what, func(t *testing.T) {
			f, path := openWhole(t)
			practised(t, f, 11, 1, 2, 2)
			if err := f.SetSetting("capo", "3"); err != nil {
				t.Fatal(err)
			}
			other := filepath.Join(t.TempDir(), "other.db")
			c.other(t, f, other)
			practised(t, f, 12, 1, 3, 3)
			bytes, err := os.ReadFile(other)
			if err != nil {
				t.Fatal(err)
			}
			put(t, path, bytes)
			followed(t, f, "another progress file was put in the place of this one")
			practised(t, f, 13, 1, 4, 4)
			sound(t, f, c.answers)
			f.Close()
			g := openAt(t, path, evening)
			sound(t, g, c.answers)
			if v, _, err := g.Setting("capo"); v != "3" || err != nil {
				t.Errorf("the capo is at %q, %v", v, err)
			}
			if s, err := g.Sessions(); err != nil || len(s) != c.sessions {
				t.Errorf("%d sessions, %v", len(s), err)
			}
		})
	}
}

func TestRubbishInItsPlaceIsLeftAlone(t *testing.T) {
	f, path := openWhole(t)
	rubbish := bytes.Repeat([]byte("rubbish "), 1000)
	put(t, path, rubbish)
	practised(t, f, 12, 1, 3, 3)
	followed(t, f, "was replaced: this is not a progress file")
	practised(t, f, 13, 1, 4, 4)
	if n, why := f.AtRisk(); n != 7 || why == nil {
		t.Errorf("%d answers at risk: %v", n, why)
	}
	if is, err := os.ReadFile(path); err != nil || !bytes.Equal(is, rubbish) {
		t.Errorf("the rubbish has changed (%v)", err)
	}
	elsewhere := filepath.Join(t.TempDir(), "elsewhere.db")
	if err := f.GoOnIn(elsewhere); err != nil {
		t.Fatal(err)
	}
	practised(t, f, 14, 1, 5, 5)
	if n, why := f.AtRisk(); n != 0 || why != nil || f.Path() != elsewhere {
		t.Errorf("%d answers at risk: %v", n, why)
	}
	sound(t, openAt(t, elsewhere, evening), 132)
}

func TestPracticeInMemoryGoesOnInAFile(t *testing.T) {
	f := inMemory(t, evening)
	practised(t, f, 0, 2, 10, 1)
	if n, why := f.AtRisk(); n != 20 || why == nil {
		t.Errorf("%d answers at risk: %v", n, why)
	}
	there := filepath.Join(t.TempDir(), "there.db")
	put(t, there, []byte("a letter"))
	if err := f.GoOnIn(there); err == nil {
		t.Error("written over a letter")
	}
	leftAlone(t, "a letter", there, []byte("a letter"))
	if err := f.GoOnIn(filepath.Join(there, "progress.db")); err == nil {
		t.Error("written into a letter")
	}
	practised(t, f, 2, 1, 10, 2)
	path := filepath.Join(t.TempDir(), "new", "progress.db")
	if err := f.GoOnIn(path); err != nil {
		t.Fatal(err)
	}
	practised(t, f, 3, 1, 10, 3)
	if n, why := f.AtRisk(); n != 0 || why != nil {
		t.Errorf("%d answers at risk: %v", n, why)
	}
	sound(t, openAt(t, path, evening), 40)
}

// A file that is cut short while it is open cannot be read any more. What was practised since the start
// can still be saved.
func TestWhatIsLeftOfADamagedFileIsSaved(t *testing.T) {
	f, path := openWhole(t)
	practised(t, f, 11, 1, 2, 2)
	for _, part := range []string{path + "-wal", path} {
		if err := os.Truncate(part, 0); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := f.db.Exec("PRAGMA shrink_memory"); err != nil { // what it still knows by heart
		t.Fatal(err)
	}
	for range 3 {
		err := f.Record(progress.Answer{Item: "d/t/u", Drill: "d", At: evening, Result: progress.Right})
		t.Log(err) // SQLite may or may not have to read what is gone
	}
	// Nor may a fit that is under way: what it then says is not what has happened.
	f.alongside(func() error { return progress.ErrDamaged })
	f.aside.Wait()
	followed(t, f, "was cut short")
	if n, why := f.AtRisk(); n != 5 || why == nil {
		t.Errorf("%d answers at risk: %v", n, why)
	}
	elsewhere := filepath.Join(t.TempDir(), "elsewhere.db")
	if err := f.GoOnIn(elsewhere); !errors.Is(err, ErrOnlySince) {
		t.Fatal(err)
	}
	sound(t, f, 5)
	sound(t, openAt(t, elsewhere, evening), 5)
	if n, why := f.AtRisk(); n != 0 || why != nil {
		t.Errorf("%d answers at risk: %v", n, why)
	}
}
