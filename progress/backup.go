package progress

import (
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

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
	if err := f.db.QueryRow("SELECT EXISTS (SELECT 1 FROM answers)").Scan(&any); err != nil || !any {
		return err
	}
	day := DayOf(f.now()).Date()
	if slices.ContainsFunc(CopiesOf(f.Path()), func(c Copy) bool { return c.daily() && c.At.Equal(day) }) {
		return nil
	}
	f.alongside(func() error {
		_, err := f.copyAs(copyFolder, day.Format(dateForm))
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
	if err := makeFolder(filepath.Dir(path)); err != nil {
		return "", fmt.Errorf("no folder for copies: %w", err)
	}
	db := newPlace(f.Path()).open() // a connection of its own, so that practice need not wait
	defer db.Close()
	if err := copyTo(db, path); err != nil {
		return path, fmt.Errorf("no copy of the progress file could be made: %w", err)
	}
	for _, old := range toGo(CopiesOf(f.Path()), f.now()) {
		err = errors.Join(err, os.Remove(old.Path))
	}
	return path, err
}

// copyTo writes a whole and proven copy of a database to a path where nothing is, readable by its owner only, or nothing
// at all.
func copyTo(db *sql.DB, path string) error {
	var answers int
	if err := db.QueryRow("SELECT count(*) FROM answers").Scan(&answers); err != nil {
		return plain(err)
	}
	return whole.New(path, 0o600, func(file *os.File) error {
		if _, err := db.Exec("VACUUM INTO ?", file.Name()); err != nil {
			return plain(err)
		}
		return prove(file.Name(), answers)
	})
}

// prove checks a progress file that nobody else has open, and that it holds no fewer answers than it should.
// It leaves nothing beside it.
func prove(path string, answers int) error {
	db := newStill(path).open()
	defer db.Close()
	var h Health
	err := reading(db, func(tx *sql.Tx) error {
		version, err := known(tx)
		if err != nil {
			return err
		}
		if version < len(migrations) {
			return h.pages(tx) // what an older version wrote has to be read by its own rules
		}
		return h.check(tx)
	})
	if err != nil {
		return plain(err)
	}
	if err := h.Err(); err != nil {
		return err
	}
	if h.Answers < answers {
		return damaged("%d of %d answers can be copied", h.Answers, answers)
	}
	return nil
}

// makeFolder makes a folder, readable by its owner only, and sees to it that it outlives a power cut.
func makeFolder(path string) error {
	if about, err := os.Stat(path); err == nil && about.IsDir() {
		return nil
	}
	if err := os.MkdirAll(path, 0o700); err != nil {
		return err
	}
	whole.SyncFolder(filepath.Dir(path))
	return nil
}
