package store

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/pages"
)

// logged returns the bytes of a progress file and of its log, as a kill leaves them: the first answers are in the
// file, the others in the log only.
func logged(t *testing.T, inFile, inLog int) (file, log []byte) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "progress.db")
	f := openAt(t, path, evening)
	practised(t, f, 0, 1, inFile, 1)
	if _, err := f.db.Exec("PRAGMA wal_checkpoint(TRUNCATE)"); err != nil {
		t.Fatal(err)
	}
	practised(t, f, 1, 1, inLog, 2)
	file, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if log, err = os.ReadFile(path + "-wal"); err != nil {
		t.Fatal(err)
	}
	return file, log
}

func write(t *testing.T, path string, bytes []byte) {
	t.Helper()
	if err := os.WriteFile(path, bytes, 0o600); err != nil {
		t.Fatal(err)
	}
}

// beside lists what lies in a folder.
func beside(t *testing.T, folder string) string {
	t.Helper()
	all, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, entry := range all {
		names = append(names, entry.Name())
	}
	return strings.Join(names, " ")
}

func TestReadingLeavesNothingBeside(t *testing.T) {
	file, log := logged(t, 30, 20)
	for what, c := range map[string]struct {
		log     []byte
		answers int
	}{"without a log": {nil, 30}, "with a log": {log, 50}, "with an empty log": {[]byte{}, 30}} {
		folder := t.TempDir()
		path := filepath.Join(folder, "progress.db")
		write(t, path, file)
		if c.log != nil {
			write(t, path+"-wal", c.log)
		}
		before := beside(t, folder)
		f, err := OpenToRead(path, clockAt(evening.AddDate(0, 0, 5)))
		if err != nil {
			t.Fatal(what, err)
		}
		sound(t, f, c.answers)
		if err := f.Close(); err != nil {
			t.Error(what, err)
		}
		if now := beside(t, folder); now != before {
			t.Errorf("%s: there was %s, and now there is %s", what, before, now)
		}
		if is, err := os.ReadFile(path); err != nil || !bytes.Equal(is, file) {
			t.Errorf("%s: the file has changed, %v", what, err)
		}
		// SQLite itself sees the same.
		sound(t, openAt(t, path, evening.AddDate(0, 0, 5)), c.answers)
	}
}

// A file is read whole while another program writes to it as fast as it can.
func TestReadingWhileAnotherWrites(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	cmd, out := child(t, path, 1_000_000)
	defer cmd.Wait()
	defer cmd.Process.Kill()
	one := make([]byte, 1)
	if _, err := out.Read(one); err != nil {
		t.Fatal(err)
	}
	go func() {
		for rest := make([]byte, 4096); ; {
			if _, err := out.Read(rest); err != nil {
				return
			}
		}
	}()
	last := 0
	for range 20 {
		f, err := OpenToRead(path, time.Now)
		if err != nil {
			t.Fatal(err)
		}
		h, err := f.Check()
		if err != nil || h.Answers < last || h.Answers == 0 {
			t.Errorf("%d answers after %d, %v", h.Answers, last, err)
		}
		last = h.Answers
		if err := f.Close(); err != nil {
			t.Error(err)
		}
	}
}

// Where a log is broken, SQLite leaves out what is behind and says nothing. Here it is refused if whole commits
// lie behind, and told if only the last one is broken off.
func TestABrokenLogIsTold(t *testing.T) {
	t.Parallel()
	file, log := logged(t, 30, 20)
	const frame = pages.FrameHeader + pages.UsualPage
	cut := func(n int) []byte { return bytes.Clone(log[:len(log)-n]) }
	flip := func(at int) []byte { b := bytes.Clone(log); b[at] ^= 0x10; return b }
	for what, c := range map[string]struct {
		log     []byte
		damaged bool
	}{
		"a bit in the first page":               {flip(pages.LogHeader + pages.FrameHeader + 2000), true},
		"a bit in a page of the middle":         {flip(pages.LogHeader + 30*frame + pages.FrameHeader + 7), true},
		"a bit in a checksum":                   {flip(pages.LogHeader + 30*frame + 17), true},
		"a bit in a salt":                       {flip(pages.LogHeader + 30*frame + 9), true},
		"a bit in a page number":                {flip(pages.LogHeader + 30*frame + 3), true},
		"a bit in the header's salt":            {flip(17), true},
		"a bit in the header's checksum":        {flip(30), true},
		"a bit in the header's magic":           {flip(1), true},
		"a bit in the last page":                {flip(len(log) - 100), false},
		"a bit in the last frame's header":      {flip(len(log) - pages.UsualPage - 5), false},
		"the end of the last page is missing":   {cut(100), false},
		"but for a few bytes, the last is gone": {cut(frame - 17), false},
	} {
		path := filepath.Join(t.TempDir(), "progress.db")
		write(t, path, file)
		write(t, path+"-wal", c.log)
		for way, open := range map[string]func(string, func() time.Time) (*File, error){"to read": OpenToRead, "to write": Open} {
			f, err := open(path, clockAt(evening))
			if c.damaged {
				if !errors.Is(err, progress.ErrDamaged) {
					t.Errorf("%s, %s: %v, want that it is damaged", what, way, err)
				}
				if is, err := os.ReadFile(path + "-wal"); err != nil || !bytes.Equal(is, c.log) {
					t.Errorf("%s, %s: the log has changed, %v", what, way, err)
				}
				continue
			}
			if err != nil {
				t.Errorf("%s, %s: %v", what, way, err)
				continue
			}
			if err := f.Follow(); !errors.Is(err, pages.ErrTorn) && way == "to write" {
				t.Errorf("%s, %s: told %v in the midst", what, way, err)
			}
			sound(t, f, 50) // the last that was written is that the session ended
			if err := f.Close(); !errors.Is(err, pages.ErrTorn) {
				t.Errorf("%s, %s: told %v at the end", what, way, err)
			}
			write(t, path, file)
			write(t, path+"-wal", c.log)
		}
	}
}

// What a kill leaves is no fault: pages of a commit that was not finished, and a header without its page.
func TestACommitThatWasNotFinishedIsNoFault(t *testing.T) {
	file, log := logged(t, 30, 20)
	const frame = pages.FrameHeader + pages.UsualPage
	for _, n := range []int{frame, frame - pages.FrameHeader, 2 * frame} {
		path := filepath.Join(t.TempDir(), "progress.db")
		write(t, path, file)
		write(t, path+"-wal", log[:len(log)-n])
		f := openAt(t, path, evening)
		if err := f.Close(); err != nil {
			t.Errorf("%d bytes left out: %v", n, err)
		}
	}
}

// A log that is copied into the file already may be broken: nothing is missing.
func TestABrokenLogOfWhatIsInTheFileIsNoDamage(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	f := openAt(t, path, evening)
	practised(t, f, 0, 1, 30, 1)
	if _, err := f.db.Exec("PRAGMA wal_checkpoint(PASSIVE)"); err != nil {
		t.Fatal(err)
	}
	file, _ := os.ReadFile(path)
	log, _ := os.ReadFile(path + "-wal")
	log[17] ^= 1
	elsewhere := filepath.Join(t.TempDir(), "progress.db")
	write(t, elsewhere, file)
	write(t, elsewhere+"-wal", log)
	g, err := OpenToRead(elsewhere, clockAt(evening))
	if err != nil {
		t.Fatal(err)
	}
	sound(t, g, 30)
}

func TestAFileBehindALinkIsFoundWithItsLog(t *testing.T) {
	file, log := logged(t, 30, 20)
	real := filepath.Join(t.TempDir(), "progress.db")
	write(t, real, file)
	write(t, real+"-wal", log)
	link := filepath.Join(t.TempDir(), "link.db")
	if err := os.Symlink(real, link); err != nil {
		t.Skip("no links here:", err)
	}
	for _, open := range []func(string, func() time.Time) (*File, error){OpenToRead, Open} {
		f, err := open(link, clockAt(evening))
		if err != nil {
			t.Fatal(err)
		}
		sound(t, f, 50)
		f.Close()
		if lies := beside(t, filepath.Dir(link)); lies != "link.db" {
			t.Errorf("beside the link lies %s", lies)
		}
	}
	// A link that leads nowhere yet leads there afterwards; one in a circle nowhere.
	nowhere := filepath.Join(t.TempDir(), "nowhere.db")
	os.Remove(link)
	os.Symlink(nowhere, link)
	f := openAt(t, link, evening)
	practised(t, f, 0, 1, 3, 1)
	f.Close()
	sound(t, openAt(t, nowhere, evening), 3)
	os.Remove(link)
	os.Symlink(link, link)
	if _, err := Open(link, clockAt(evening)); err == nil || !strings.Contains(err.Error(), "circle") {
		t.Errorf("in a circle: %v", err)
	}
}
