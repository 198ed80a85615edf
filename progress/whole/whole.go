// Package whole writes files that appear whole or not at all. A file is written beside its place, under a name of its
// own, synced, and moved there: whoever looks sees what was there before or all that is new, whatever ends the program
// in between.
package whole

import (
	"crypto/rand"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"
)

// New writes a file at a path where nothing is. Where something is, be it a link that leads nowhere, it is left as it
// is and the error is fs.ErrExist. The file is open for writing and seeking; perm is what its permissions are, less the
// umask.
func New(path string, perm fs.FileMode, write func(*os.File) error) error {
	if _, err := os.Lstat(path); err == nil {
		return exists(path)
	}
	return beside(path, perm, write, func(from string) error {
		err := os.Link(from, path)
		if err == nil || errors.Is(err, fs.ErrExist) {
			return errors.Join(err, os.Remove(from))
		}
		// Where there are no hard links an empty file holds the place.
		held, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, perm)
		if err != nil {
			return err
		}
		if err := errors.Join(held.Close(), os.Rename(from, path)); err != nil {
			return errors.Join(err, os.Remove(path))
		}
		return nil
	})
}

// Replace writes a file at a path in the place of a file that may be there. A link there is replaced, and what it leads
// to left as it is. What is no file, such as a folder, a pipe or a device, is left as it is, with an error.
func Replace(path string, perm fs.FileMode, write func(*os.File) error) error {
	if there, err := os.Lstat(path); err == nil && !there.Mode().IsRegular() && there.Mode()&fs.ModeSymlink == 0 {
		return &fs.PathError{Op: "replace", Path: path, Err: errors.New("this is not a file")}
	}
	return beside(path, perm, write, func(from string) error { return os.Rename(from, path) })
}

func exists(path string) error { return &fs.PathError{Op: "write", Path: path, Err: fs.ErrExist} }

// beside writes a file beside a path, syncs it and has it moved to the path. Errors name the path: the name beside it
// is nobody's.
func beside(path string, perm fs.FileMode, write func(*os.File) error, move func(from string) error) error {
	folder := filepath.Dir(path)
	Sweep(folder)
	name := filepath.Join(folder, Unfinished+rand.Text())
	defer begin(name)()
	defer os.Remove(name)
	if err := Synced(name, perm, write); err != nil {
		return of(path, err)
	}
	if err := move(name); err != nil {
		return of(path, err)
	}
	SyncFolder(folder)
	return nil
}

// Synced writes a file at a path where nothing is, straight there: for a folder that nobody sees yet. Its name is on the
// disk only after SyncFolder.
func Synced(path string, perm fs.FileMode, write func(*os.File) error) error {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_EXCL, perm)
	if err != nil {
		return err
	}
	if err := write(f); err != nil {
		f.Close()
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

// of gives an error of a file beside a path the path.
func of(path string, err error) error {
	if l := (*os.LinkError)(nil); errors.As(err, &l) {
		return &fs.PathError{Op: "write", Path: path, Err: l.Err}
	}
	if p := (*fs.PathError)(nil); errors.As(err, &p) && strings.Contains(p.Path, Unfinished) {
		return &fs.PathError{Op: p.Op, Path: path, Err: p.Err}
	}
	return err
}

// Folder makes a folder at a path where nothing is, and fills it before it appears there. Where something is, the error
// is fs.ErrExist. The function writes into the folder that it is given.
func Folder(path string, perm fs.FileMode, fill func(folder string) error) error {
	if _, err := os.Lstat(path); err == nil {
		return exists(path)
	}
	parent := filepath.Dir(path)
	return In(parent, perm, func(folder string) error {
		if err := fill(folder); err != nil {
			return of(path, err)
		}
		SyncFolder(folder)
		if err := os.Rename(folder, path); err != nil {
			return of(path, err)
		}
		SyncFolder(parent)
		return nil
	})
}

// In makes a folder inside another for what is not finished, and takes it away at the end with all that is left in it.
func In(parent string, perm fs.FileMode, fill func(folder string) error) error {
	Sweep(parent)
	folder := filepath.Join(parent, Unfinished+rand.Text())
	defer begin(folder)()
	if err := os.Mkdir(folder, perm); err != nil {
		return of(parent, err)
	}
	defer os.RemoveAll(folder)
	return of(parent, fill(folder))
}

// SyncFolder puts the names in a folder on the disk, where the system can do so. Where it cannot there is nothing to be
// done about it.
func SyncFolder(folder string) {
	if d, err := os.Open(folder); err == nil {
		d.Sync()
		d.Close()
	}
}

// Unfinished is how the name of a file or a folder begins until it is whole.
const Unfinished = ".sparetone-unfinished-"

// Sweep takes away from a folder what a program that was killed never finished, a day or more before the folder changed last. Both times are
// of the clock that the file system has, which may be that of another machine and far from this one's.
func Sweep(folder string) {
	changed, err := os.Stat(folder)
	if err != nil {
		return
	}
	all, _ := os.ReadDir(folder)
	for _, entry := range all {
		if !strings.HasPrefix(entry.Name(), Unfinished) {
			continue
		}
		if about, err := entry.Info(); err == nil && changed.ModTime().Sub(about.ModTime()) > 24*time.Hour {
			os.RemoveAll(filepath.Join(folder, entry.Name()))
		}
	}
}

// unfinished are the paths of what is being written now.
var unfinished = struct {
	sync.Mutex
	paths map[string]bool
	ended bool
}{paths: map[string]bool{}}

// begin notes that something is being written; the function that it returns, that it no longer is.
func begin(path string) (end func()) {
	unfinished.Lock()
	defer unfinished.Unlock()
	if unfinished.ended {
		select {} // the program ends
	}
	unfinished.paths[path] = true
	return func() {
		unfinished.Lock()
		defer unfinished.Unlock()
		delete(unfinished.paths, path)
	}
}

// Abandon takes away all that is being written now, and holds up whoever begins to write from then on. It is for the
// moment before the program ends.
func Abandon() {
	unfinished.Lock()
	defer unfinished.Unlock()
	unfinished.ended = true
	for path := range unfinished.paths {
		os.RemoveAll(path)
	}
}
