package store

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"sparetone/progress/whole"
)

// copiedDaily returns the path of a file with copies of three days, forty answers more each day, and forty newer
// ones that are in no copy.
func copiedDaily(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "progress.db")
	for day := range 4 {
		f := openAt(t, path, evening.AddDate(0, 0, day))
		practised(t, f, day, 1, 40, uint64(day))
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
	}
	if n := len(CopiesOf(path)); n != 3 { // the first day there was nothing to copy
		t.Fatalf("%d copies", n)
	}
	return path
}

// harmed damages the answers of a file.
func harmed(t *testing.T, path string) {
	t.Helper()
	file, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	pages := pagesOf(file, "answers")
	write(t, path, zeroed(file, pages[len(pages)-1]))
	if f, err := Open(path, clockAt(evening)); err == nil {
		f.Close()
		t.Fatal("it is not damaged")
	}
}

func TestRestoreKeepsWhatIsNewer(t *testing.T) {
	t.Parallel()
	for what, c := range map[string]struct {
		harm    func(t *testing.T, path string)
		from    string
		answers int // at least
		aside   bool
	}{
		"a sound file":           {func(*testing.T, string) {}, "", 160, true},
		"an older copy, by name": {func(*testing.T, string) {}, "progress-2026-03-05.db", 160, true},
		"a damaged file":         {harmed, "", 121, true},
		"no file": {func(t *testing.T, path string) {
			if err := os.Remove(path); err != nil {
				t.Fatal(err)
			}
		}, "", 120, false},
		"rubbish": {func(t *testing.T, path string) { write(t, path, bytes.Repeat([]byte("rubbish "), 1000)) }, "", 120, true},
		"the newest copy is damaged too": {func(t *testing.T, path string) {
			harmed(t, path)
			harmed(t, CopiesOf(path)[0].Path)
		}, "", 121, true},
	} {
		t.Run(what, func(t *testing.T) {
			path := copiedDaily(t)
			c.harm(t, path)
			was, _ := os.ReadFile(path)
			copies := CopiesOf(path)
			got, err := Restore(path, c.from, clockAt(evening.AddDate(0, 0, 3)))
			if err != nil {
				t.Fatal(err)
			}
			if got.Answers < c.answers || got.Answers > 160 || got.Answers+got.Lost != 160 && !got.AtLeast && c.aside {
				t.Errorf("%+v, want %d answers or more", got, c.answers)
			}
			sound(t, openAt(t, path, evening.AddDate(0, 0, 3)), got.Answers)
			if now := CopiesOf(path); len(now) < len(copies) {
				t.Errorf("of the copies %v are left %v", copies, now)
			}
			if !c.aside {
				if got.Aside != "" {
					t.Errorf("set aside: %s", got.Aside)
				}
				return
			}
			if is, err := os.ReadFile(got.Aside); err != nil || !bytes.Equal(is, was) {
				t.Errorf("what was there is not in %s, %v", got.Aside, err)
			}
		})
	}
}

func TestRestoreWithoutACopy(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	write(t, path, soundBytes(t))
	was, _ := os.ReadFile(path)
	for _, from := range []string{"", "progress-2026-03-05.db", path + ".none"} {
		if _, err := Restore(path, from, clockAt(evening)); err == nil || strings.Contains(err.Error(), "\n") {
			t.Errorf("%q: %v", from, err)
		}
	}
	leftAlone(t, "without a copy", path, was)
}

// Whoever is interrupted finds it finished: whatever of the names has been changed by then.
func TestARestoreThatIsInterruptedIsFinished(t *testing.T) {
	file, log := logged(t, 30, 20)
	for done := range 4 {
		path := filepath.Join(t.TempDir(), "progress.db")
		write(t, path, file)
		write(t, path+"-wal", log)
		other := openAt(t, path+restoring, evening)
		practised(t, other, 0, 1, 7, 7)
		other.Close()
		aside, err := asideOf(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, step := range [][2]string{{path + "-wal", aside + "-wal"}, {path, aside}, {path + restoring, path}}[:done] {
			if err := os.Rename(step[0], step[1]); err != nil {
				t.Fatal(err)
			}
		}
		for _, open := range []func(string, func() time.Time) (*File, error){OpenToRead, Open} {
			f, err := open(path, clockAt(evening))
			if err != nil {
				t.Fatalf("after %d steps: %v", done, err)
			}
			sound(t, f, 7)
			f.Close()
		}
		f, err := OpenToRead(aside, clockAt(evening))
		if err != nil {
			t.Fatalf("after %d steps: %v", done, err)
		}
		sound(t, f, 50)
		if !whole.NotThere(path + restoring) {
			t.Errorf("after %d steps it is not finished", done)
		}
	}
}
