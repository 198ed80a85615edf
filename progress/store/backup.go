package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"sparetone/progress"
	"sparetone/progress/tables"
	"sparetone/progress/whole"
)

// Backup copies the file, as it is now, into the folder backups/by-hand beside it, where the program takes
// nothing away. It returns where the copy lies.
func (f *File) Backup() (path string, err error) {
	return f.copyApart(filepath.Join(copyFolder, handFolder), f.now().Format(momentForm))
}

// copyBefore copies the file before something that changes much, such as import, and returns where the copy
// lies.
func (f *File) copyBefore(what string) (path string, err error) {
	return f.copyApart(copyFolder, f.now().Format(momentForm)+before+what)
}

// copyApart makes a copy of its own, however soon after another of the same name.
func (f *File) copyApart(folder, name string) (path string, err error) {
	path, err = f.copyAs(folder, name)
	for n := 2; errors.Is(err, fs.ErrExist); n++ {
		path, err = f.copyAs(folder, fmt.Sprintf("%s.%d", name, n))
	}
	return path, err
}

// daily makes the copy of a practice day while the program goes on, if there is anything to copy.
func (f *File) daily() error {
	var any bool
	if err := f.db.QueryRow("SELECT EXISTS (SELECT 1 FROM answers) OR EXISTS (SELECT 1 FROM songs)").Scan(&any); err != nil || !any {
		return err
	}
	day := progress.DayOf(f.now()).Date()
	if slices.ContainsFunc(CopiesOf(f.Path()), func(c Copy) bool { return c.daily() && c.At.Equal(day) }) {
		return nil
	}
	f.alongside(func() error {
		_, err := f.copyAs(copyFolder, day.Format(time.DateOnly))
		if errors.Is(err, fs.ErrExist) { // another program was first
			return nil
		}
		return err
	})
	return nil
}

// copyAs makes a copy in a folder beside the file. Only when it is proven, those that are too old go. Where there is one of
// that name the error is fs.ErrExist.
func (f *File) copyAs(folder, name string) (path string, err error) {
	if f.Path() == "" {
		return "", errors.New("practice that is only in memory has no copies; save it first")
	}
	base := filepath.Base(f.Path())
	after := filepath.Ext(base)
	path = filepath.Join(filepath.Dir(f.Path()), folder, strings.TrimSuffix(base, after)+"-"+name+after)
	if err := whole.MakeFolder(filepath.Dir(path)); err != nil {
		return "", fmt.Errorf("no folder for copies: %w", err)
	}
	db := tables.NewConnector(f.Path()).Open() // a connection of its own, so that practice need not wait
	defer db.Close()
	if err := copyTo(db, path); err != nil {
		return path, fmt.Errorf("no copy of the progress file could be made: %w", err)
	}
	for _, old := range toGo(CopiesOf(f.Path()), f.now()) {
		err = errors.Join(err, os.Remove(old.Path))
	}
	return path, err
}
