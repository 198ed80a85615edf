package progress

import (
	"cmp"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// backupsKept is how many backups stay; the oldest goes when there is one more.
const backupsKept = 7

// Backup copies the file, as it is now, into the folder backups beside it. It returns where the copy
// lies.
func (f *File) Backup() (path string, err error) {
	return f.backup(f.now().Format("2006-01-02-150405"))
}

// daily makes the first backup of a practice day while the program goes on, if there is anything to
// copy.
func (f *File) daily() error {
	var any bool
	if err := f.db.QueryRow("SELECT EXISTS (SELECT 1 FROM answers)").Scan(&any); err != nil || !any {
		return err
	}
	day := DayOf(f.now()).Date().Format(dateForm)
	if slices.ContainsFunc(f.backups(), func(name string) bool { return strings.Contains(name, day) }) {
		return nil
	}
	f.alongside(func() error {
		_, err := f.backup(day)
		return err
	})
	return nil
}

// backupName returns where backups lie, and what is before and after the date in their names.
func (f *File) backupName() (folder, before, after string) {
	base := filepath.Base(f.Path())
	after = filepath.Ext(base)
	return filepath.Join(filepath.Dir(f.Path()), "backups"), strings.TrimSuffix(base, after) + "-2", after
}

// backups lists the names of the backups there are, oldest first.
func (f *File) backups() []string {
	folder, before, after := f.backupName()
	all, _ := os.ReadDir(folder)
	var names []string
	for _, entry := range all {
		if strings.HasPrefix(entry.Name(), before) && strings.HasSuffix(entry.Name(), after) {
			names = append(names, entry.Name())
		}
	}
	slices.SortFunc(names, func(a, b string) int {
		return cmp.Compare(strings.TrimSuffix(a, after), strings.TrimSuffix(b, after))
	})
	return names
}

func (f *File) backup(date string) (string, error) {
	if f.Path() == "" {
		return "", errors.New("practice that is only in memory has no backups; save it first")
	}
	folder, before, after := f.backupName()
	path := filepath.Join(folder, strings.TrimSuffix(before, "2")+date+after)
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return "", fmt.Errorf("no folder for backups: %w", err)
	}
	db := newPlace(f.Path()).open() // a connection of its own, so that practice need not wait
	defer db.Close()
	if err := copyTo(db, path); err != nil && !errors.Is(err, fs.ErrExist) {
		return "", fmt.Errorf("no backup: %w", err)
	}
	var err error
	have := f.backups()
	for _, old := range have[:max(0, len(have)-backupsKept)] {
		err = errors.Join(err, os.Remove(filepath.Join(folder, old)))
	}
	return path, err
}

// copyTo writes a whole copy of a database to a path where nothing is, or nothing at all.
func copyTo(db *sql.DB, path string) error {
	sweep(filepath.Dir(path))
	file, err := os.CreateTemp(filepath.Dir(path), unfinished+"*") // readable by its owner only
	if err != nil {
		return err
	}
	defer os.Remove(file.Name())
	defer file.Close()
	if _, err := db.Exec("VACUUM INTO ?", file.Name()); err != nil {
		return plain(err)
	}
	if err := errors.Join(file.Sync(), file.Close()); err != nil {
		return err
	}
	if err := os.Link(file.Name(), path); err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	return os.Rename(file.Name(), path) // where there are no hard links
}

// unfinished is how the name of a copy begins until it is whole.
const unfinished = ".sparetone-copy-"

// sweep takes away copies that a program which was killed never finished.
func sweep(folder string) {
	all, _ := os.ReadDir(folder)
	for _, entry := range all {
		about, err := entry.Info()
		if err == nil && strings.HasPrefix(entry.Name(), unfinished) && time.Since(about.ModTime()) > 24*time.Hour {
			os.Remove(filepath.Join(folder, entry.Name()))
		}
	}
}
