package store

import (
	"database/sql"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"sparetone/progress"
	"sparetone/progress/exchange"
	"sparetone/progress/tables"
	"sparetone/progress/whole"
)

// Synced is what came of keeping a file alike with those of a student's other machines.
type Synced struct {
	exchange.Aligned
	Unread []Unread // files of the folder that could not be read now
	Wrote  bool     // its own file was written
}

// Unread is a file of the folder that could not be read.
type Unread struct {
	Name string
	Err  error // ErrTorn, ErrNoMachine, or what else is wrong with it
}

// SyncFolder returns the folder through which the file is kept alike with those of other machines; "" if it is not.
func (f *File) SyncFolder() (string, error) {
	folder, _, err := f.Setting(exchange.FolderKey)
	return folder, err
}

// SetSyncFolder keeps that folder; "" ends it, and leaves the folder as it is.
func (f *File) SetSyncFolder(folder string) error {
	return f.change(func(tx *sql.Tx) error { return tables.SetOrClear(tx, exchange.FolderKey, folder) })
}

// SyncHow says how a file is kept alike.
type SyncHow struct {
	Host  string                          // what the machine calls itself
	Carry func(key string) progress.Carry // whether a setting goes to other machines
	Other bool                            // also the practice of another progress file, as the student's own
}

// Sync takes in what the files of other machines in a folder hold, and writes its own there, which no other machine writes.
// Files that are not whole are left for the next time. All that is taken in is on the disk when Sync returns nil, and none of it
// if it returns an error before its own file is written.
func (f *File) Sync(folder string, how SyncHow) (done Synced, err error) {
	if f.Path() == "" {
		return done, errors.New("practice that is only in memory is not kept alike with other machines; save it first")
	}
	return f.sync(folder, how)
}

func (f *File) sync(folder string, how SyncHow) (done Synced, err error) {
	files, unread, err := readFolder(folder)
	if err != nil {
		return done, err
	}
	place := f.Path()
	if host, _, _ := strings.Cut(how.Host, "."); host != "" { // what follows depends on where it is plugged in
		place = host + ":" + place
	}
	err = f.change(func(tx *sql.Tx) error {
		done = Synced{Unread: unread}
		done.Aligned, err = exchange.Align(tx, f.now(), files, exchange.AlignWishes{Place: place, Host: how.Host, Carry: how.Carry, JoinOthers: how.Other})
		if err != nil || f.Path() == "" || !changesMuch(done.Aligned) {
			return err
		}
		_, err = f.copyBefore("sync")
		return err
	})
	if err != nil || done.Own == nil {
		return done, err
	}
	err = whole.Replace(filepath.Join(folder, done.Name), 0o600, func(to *os.File) error {
		_, err := to.Write(done.Own)
		return err
	})
	if err != nil {
		return done, fmt.Errorf("this machine's file cannot be written in %s: %w", folder, whole.Brief(err))
	}
	done.Wrote = true
	return done, nil
}

// changesMuch reports whether another's practice came in, or an import goes that was taken back elsewhere.
func changesMuch(a exchange.Aligned) bool {
	for _, t := range a.Files {
		if t.Joined {
			return true
		}
	}
	return a.TakenBack > 0
}

// readFolder reads the files of machines that lie in a folder, in the order of their names. What is called otherwise, or hidden as
// what is still being carried may be, is not looked at.
func readFolder(folder string) (files []*exchange.MachineFile, unread []Unread, err error) {
	about, err := os.Stat(folder)
	if err == nil && !about.IsDir() {
		err = errors.New("this is a file; name the folder that it lies in")
	}
	if err != nil {
		return nil, nil, fmt.Errorf("folder %s: %w", folder, whole.Brief(err))
	}
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil, nil, fmt.Errorf("folder %s: %w", folder, whole.Brief(err))
	}
	for _, entry := range entries {
		name := entry.Name()
		if strings.HasPrefix(name, ".") || !strings.Contains(name, exchange.MachinePrefix) {
			continue
		}
		packed, err := readMachine(filepath.Join(folder, name))
		if errors.Is(err, os.ErrNotExist) { // it was taken away in between
			continue
		}
		var file *exchange.MachineFile
		if err == nil {
			file, err = exchange.ReadMachine(name, packed)
		}
		if err != nil {
			unread = append(unread, Unread{name, whole.Brief(err)})
			continue
		}
		files = append(files, file)
	}
	return files, unread, nil
}

// readMachine reads a file as it is at one moment.
func readMachine(path string) ([]byte, error) {
	about, err := os.Stat(path)
	switch {
	case err != nil:
		return nil, err
	case !about.Mode().IsRegular():
		return nil, exchange.ErrNoMachine
	case about.Size() > exchange.LargestMachine:
		return nil, fmt.Errorf("it has more than %d MB, which no machine's practice has; it was left alone", exchange.LargestMachine>>20)
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return io.ReadAll(io.LimitReader(file, exchange.LargestMachine))
}
