package whole

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// text writes a text.
func text(s string) func(*os.File) error {
	return func(f *os.File) error { _, err := f.WriteString(s); return err }
}

// has checks what a folder holds: names with what is in the files, "/" for a folder.
func has(t *testing.T, folder string, want map[string]string) {
	t.Helper()
	all, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]string{}
	for _, entry := range all {
		if entry.IsDir() {
			got[entry.Name()] = "/"
			continue
		}
		is, err := os.ReadFile(filepath.Join(folder, entry.Name()))
		if err != nil {
			t.Fatal(err)
		}
		got[entry.Name()] = string(is)
	}
	for name, is := range want {
		if holds, there := got[name]; !there || holds != is {
			t.Errorf("%s holds %q, want %q; it is there: %v", name, holds, is, there)
		}
		delete(got, name)
	}
	for name, is := range got {
		t.Errorf("%s is left, with %q", name, is)
	}
}

func TestNewIsWrittenWhereNothingIs(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a")
	if err := New(path, 0o640, text("one")); err != nil {
		t.Fatal(err)
	}
	if about, err := os.Stat(path); err != nil || about.Mode().Perm()&^0o640 != 0 || about.Mode().Perm()&0o600 != 0o600 {
		t.Errorf("%v, %v", about.Mode(), err)
	}
	if err := New(path, 0o600, text("two")); !errors.Is(err, fs.ErrExist) || !strings.Contains(err.Error(), path) {
		t.Errorf("over a file: %v", err)
	}
	nowhere := filepath.Join(dir, "link")
	if err := os.Symlink(filepath.Join(dir, "target"), nowhere); err != nil {
		t.Skip(err)
	}
	if err := New(nowhere, 0o600, text("two")); !errors.Is(err, fs.ErrExist) {
		t.Errorf("over a link that leads nowhere: %v", err)
	}
	os.Remove(nowhere)
	has(t, dir, map[string]string{"a": "one"})
}

// What came to be there while the file was written is not replaced.
func TestNewLosesARace(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a")
	err := New(path, 0o600, func(f *os.File) error {
		return errors.Join(text("one")(f), os.WriteFile(path, []byte("another's"), 0o600))
	})
	if !errors.Is(err, fs.ErrExist) {
		t.Error(err)
	}
	has(t, dir, map[string]string{"a": "another's"})
}

func TestReplaceLeavesWhatALinkLeadsTo(t *testing.T) {
	dir := t.TempDir()
	path, target := filepath.Join(dir, "a"), filepath.Join(dir, "target")
	for _, was := range []func() error{
		func() error { return nil },
		func() error { return os.WriteFile(path, []byte("old"), 0o600) },
		func() error {
			return errors.Join(os.Remove(path), os.WriteFile(target, []byte("kept"), 0o600), os.Symlink(target, path))
		},
	} {
		if err := was(); err != nil {
			t.Skip(err)
		}
		if err := Replace(path, 0o600, text("new")); err != nil {
			t.Fatal(err)
		}
	}
	if about, err := os.Lstat(path); err != nil || !about.Mode().IsRegular() {
		t.Error("the link stays")
	}
	if err := os.Mkdir(filepath.Join(dir, "folder"), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := Replace(filepath.Join(dir, "folder"), 0o600, text("new")); err == nil || !strings.Contains(err.Error(), "not a file") {
		t.Errorf("over a folder: %v", err)
	}
	has(t, dir, map[string]string{"a": "new", "target": "kept", "folder": "/"})
}

// A file that cannot be finished leaves what was there, and nothing beside it.
func TestUnfinishedIsNotSeen(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a")
	if err := os.WriteFile(path, []byte("old"), 0o600); err != nil {
		t.Fatal(err)
	}
	full := errors.New("the disk is full")
	fails := func(f *os.File) error { return errors.Join(text("half")(f), full) }
	for _, err := range []error{
		Replace(path, 0o600, fails), New(path+"2", 0o600, fails),
		Folder(path+"3", 0o700, func(folder string) error {
			return errors.Join(New(filepath.Join(folder, "x"), 0o600, text("y")), full)
		}),
	} {
		if !errors.Is(err, full) {
			t.Error(err)
		}
	}
	if err := New(filepath.Join(dir, "none", "a"), 0o600, text("x")); !errors.Is(err, fs.ErrNotExist) || strings.Contains(err.Error(), Unfinished) {
		t.Errorf("in a folder that is not there: %v", err)
	}
	has(t, dir, map[string]string{"a": "old"})
}

func TestFolderAppearsWhole(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "paper")
	fill := func(folder string) error {
		if _, err := os.Stat(path); err == nil {
			t.Error("it is there before it is whole")
		}
		return New(filepath.Join(folder, "a"), 0o600, text("x"))
	}
	if err := Folder(path, 0o755, fill); err != nil {
		t.Fatal(err)
	}
	has(t, path, map[string]string{"a": "x"})
	if err := Folder(path, 0o755, fill); !errors.Is(err, fs.ErrExist) {
		t.Errorf("a second time: %v", err)
	}
	has(t, dir, map[string]string{"paper": "/"})
}

// What a program that was killed left is taken away a day later, and nothing else.
func TestSweep(t *testing.T) {
	const year = 365 * 24 * time.Hour
	for _, off := range []time.Duration{0, -year, year} { // what the file system's clock is off this machine's
		dir := t.TempDir()
		now := time.Now().Add(off)
		for name, at := range map[string]time.Time{Unfinished + "old": now.Add(-25 * time.Hour), Unfinished + "young": now.Add(-23 * time.Hour), "letter": now.Add(-25 * time.Hour)} {
			path := filepath.Join(dir, name)
			if err := errors.Join(os.WriteFile(path, nil, 0o600), os.Chtimes(path, at, at)); err != nil {
				t.Fatal(err)
			}
		}
		if err := os.Chtimes(dir, now, now); err != nil {
			t.Fatal(err)
		}
		Sweep(dir)
		has(t, dir, map[string]string{Unfinished + "young": "", "letter": ""})
	}
	Sweep(filepath.Join(t.TempDir(), "nowhere"))
}
