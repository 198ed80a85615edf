package store

import (
	"database/sql"
	"errors"
	"io"
	"os"

	"sparetone/progress/exchange"
	"sparetone/progress/tables"
	"sparetone/progress/whole"
)

// ExportJSON writes every session and every answer, an object a line, in the order of time. Settings
// stay behind: they belong to a machine.
func (f *File) ExportJSON(w io.Writer) error {
	return tables.Plain(exchange.WriteJSON(f.db, f.now(), w))
}

// ExportCSV writes every answer as a row, in the order of time, below the names of the columns.
func (f *File) ExportCSV(w io.Writer) error { return tables.Plain(exchange.WriteCSV(f.db, f.now(), w)) }

// HandIn writes what a student hands in: a line that says what it holds, and the export. Of the line the tuning and the lessons
// are asked for.
func (f *File) HandIn(of exchange.HandedIn, w io.Writer) error {
	return tables.Plain(exchange.WriteHandedIn(f.db, f.now(), of, w))
}

// HandInAt writes it to a file, which appears whole or not at all, and never in the place of another: the error is fs.ErrExist.
func (f *File) HandInAt(path string, of exchange.HandedIn) error {
	return whole.New(path, 0o600, func(to *os.File) error { return f.HandIn(of, to) })
}

// HandedIn returns the line that HandIn would begin with.
func (f *File) HandedIn(of exchange.HandedIn) (exchange.HandedIn, error) {
	of, err := exchange.Counted(f.db, f.now(), of)
	return of, tables.Plain(err)
}

// Import adds what is in an export, as JSON lines or CSV, to the file. What is there already is left
// as it is, so the same export may come twice, and two machines that take in each other's hold the
// same. Nothing is changed unless all of it is good; the error names the line and the field that is not. Before anything is
// changed the file is copied. UndoImport takes all of it back.
func (f *File) Import(r io.Reader, how exchange.Taking) (done exchange.Imported, err error) {
	var copyBefore func() (string, error)
	if f.Path() != "" { // what is copied is the file as it was: of the import nobody sees anything yet
		copyBefore = func() (string, error) { return f.copyBefore("import") }
	}
	err = f.change(func(tx *sql.Tx) error {
		done, err = exchange.TakeIn(tx, f.now(), r, how, copyBefore)
		return err
	})
	if err != nil {
		return exchange.Imported{}, err
	}
	return done, nil
}

// Imports lists the imports that can be taken back, in the order in which UndoImport does so: the latest first.
func (f *File) Imports() (all []exchange.Import, err error) {
	err = f.read(func(tx *sql.Tx) error {
		all, err = exchange.Imports(tx)
		return err
	})
	return all, err
}

// ErrNoImport is the error of an undo where nothing is left to take back.
var ErrNoImport = errors.New("there is no import to take back")

// UndoImport takes back the latest import that is still there: the answers and sessions that came with it and what
// follows from them, and no more. What was answered since stays. It makes a copy of the file first. Called again it takes
// back the import before.
func (f *File) UndoImport() (exchange.Import, error) {
	all, err := f.Imports()
	if err != nil {
		return exchange.Import{}, err
	}
	if len(all) == 0 {
		return exchange.Import{}, ErrNoImport
	}
	return all[0], f.undo(all[0])
}

// undo takes an import back, if it is the latest.
func (f *File) undo(latest exchange.Import) error {
	return f.change(func(tx *sql.Tx) error {
		if err := exchange.Undo(tx, latest); err != nil || f.Path() == "" {
			return err
		}
		_, err := f.copyBefore("undo")
		return err
	})
}
