package store

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"sparetone/progress"
)

// asNobody does something with the rights of a user who owns nothing, which root needs to meet a
// locked door at all.
func asNobody(t *testing.T, do func()) {
	t.Helper()
	if os.Getuid() == 0 {
		runtime.LockOSThread() // the rights are one thread's
		defer runtime.UnlockOSThread()
		if err := syscall.Setfsuid(65534); err != nil {
			t.Fatal(err)
		}
		defer syscall.Setfsuid(0)
	}
	do()
}

func TestLockedDoors(t *testing.T) {
	good := soundBytes(t)
	for _, c := range []struct {
		what         string
		folder, file os.FileMode // file 0: there is none
		says         string
	}{
		{"a folder nobody may write to", 0o555, 0, "permission denied"},
		{"a file nobody may write to", 0o777, 0o444, "permission denied"},
		{"a file nobody may read", 0o777, 0o200, "permission denied"},
		{"a folder with a file that may be written to, but nothing beside it", 0o555, 0o666, "may not be written to"},
	} {
		folder := filepath.Join(t.TempDir(), "folder")
		path := filepath.Join(folder, "progress.db")
		if err := os.Mkdir(folder, 0o755); err != nil {
			t.Fatal(err)
		}
		if c.file != 0 {
			if err := os.WriteFile(path, good, 0o600); err != nil {
				t.Fatal(err)
			}
			os.Chmod(path, c.file)
		}
		for up := filepath.Dir(folder); len(up) > len(os.TempDir()); up = filepath.Dir(up) {
			os.Chmod(up, 0o755)
		}
		os.Chmod(folder, c.folder)
		asNobody(t, func() {
			f, err := Open(path, clockAt(evening))
			if err == nil {
				f.Close()
				t.Errorf("%s: opened", c.what)
				return
			}
			if !strings.Contains(err.Error(), c.says) || strings.Contains(err.Error(), "\n") {
				t.Errorf("%s: %v, want one line with %q", c.what, err, c.says)
			}
		})
		os.Chmod(folder, 0o755)
		if c.file != 0 {
			os.Chmod(path, 0o600)
			leftAlone(t, c.what, path, good)
		}
	}
}

func TestAFullDisk(t *testing.T) {
	disk := filepath.Join(t.TempDir(), "disk")
	if err := os.Mkdir(disk, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mount("tmpfs", disk, "tmpfs", 0, "size=640k"); err != nil {
		t.Skip("no small disk to fill:", err)
	}
	defer syscall.Unmount(disk, syscall.MNT_DETACH)
	path := filepath.Join(disk, "progress.db")
	f := openAt(t, path, evening)
	kept := 0
	var err error
	for ; kept < 100_000; kept++ {
		err = f.Record(progress.Answer{Item: "d/t/u", Drill: "d", At: evening, Result: progress.Right, Question: strings.Repeat("which? ", 100)})
		if err != nil {
			break
		}
	}
	if err == nil || !strings.Contains(err.Error(), "the disk is full") || kept < 10 {
		t.Fatalf("after %d answers: %v", kept, err)
	}
	sound(t, f, kept)
	elsewhere := filepath.Join(t.TempDir(), "progress.db")
	if err := f.SaveAs(elsewhere); err != nil {
		t.Fatal(err)
	}
	sound(t, openAt(t, elsewhere, evening), kept)
	if n, why := f.AtRisk(); n != 1 || why == nil || !strings.Contains(why.Error(), "the disk is full") {
		t.Errorf("%d answers at risk: %v", n, why)
	}
	// Where there is room, what could not be kept is kept as well.
	if err := f.GoOnIn(filepath.Join(t.TempDir(), "progress.db")); err != nil {
		t.Fatal(err)
	}
	sound(t, f, kept+1)
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	g := openAt(t, path, evening) // with no more room than before
	sound(t, g, kept)
	for range 7 { // one may still fit
		if _, err = g.Backup(); err != nil {
			break
		}
		g.now = clockAt(g.now().Add(time.Second))
	}
	if err == nil || !strings.Contains(err.Error(), "the disk is full") {
		t.Errorf("backups onto a full disk: %v", err)
	}
	g.Close()
	for _, c := range CopiesOf(path) {
		whole, err := os.ReadFile(c.Path)
		if err != nil {
			t.Fatal(err)
		}
		copied := filepath.Join(t.TempDir(), filepath.Base(c.Path))
		if err := os.WriteFile(copied, whole, 0o600); err != nil {
			t.Fatal(err)
		}
		sound(t, openAt(t, copied, evening), kept)
	}
}

// Where nothing may be written, what is known can still be read, with its log.
func TestReadingWhereNothingMayBeWritten(t *testing.T) {
	file, log := logged(t, 30, 20)
	folder := filepath.Join(t.TempDir(), "folder")
	if err := os.Mkdir(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(folder, "progress.db")
	for name, bytes := range map[string][]byte{path: file, path + "-wal": log} {
		write(t, name, bytes)
		os.Chmod(name, 0o444)
	}
	for up := filepath.Dir(folder); len(up) > len(os.TempDir()); up = filepath.Dir(up) {
		os.Chmod(up, 0o755)
	}
	os.Chmod(folder, 0o555)
	defer os.Chmod(folder, 0o755)
	asNobody(t, func() {
		if err := os.WriteFile(path+"-shm", nil, 0o600); err == nil {
			t.Fatal("something can be written here")
		}
		f, err := OpenToRead(path, clockAt(evening))
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		sound(t, f, 50)
	})
}
