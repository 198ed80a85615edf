package progress

import (
	"bufio"
	"bytes"
	"database/sql"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"reflect"
	"strings"
)

// Taking says how an export is taken in.
type Taking struct {
	From  string                 // what it is called, such as the name of its file; kept for UndoImport
	Means func(item string) bool // whether an item means anything to this version
}

// Imported says what an import came to.
type Imported struct {
	ID       string // of the import, for UndoImport; "" if there was nothing to add
	Copy     string // of the file before it; "" if there was nothing to add, or the file is in memory
	Added    int    // answers
	Known    int    // answers that were there already
	Sessions int    // added
	Foreign  int    // of Added and Known, answers to items that mean nothing to this version; they are kept like the others
	Such     string // one of those items
}

// longestLine is the length in bytes that a line of an import may have: all texts of an answer at
// their longest, and every byte of them escaped.
const longestLine = 64 << 10

// Import adds what is in an export, as JSON lines or CSV, to the file. What is there already is left
// as it is, so the same export may come twice, and two machines that take in each other's hold the
// same. Nothing is changed unless all of it is good; the error names the line and the field that is not. Before anything is
// changed the file is copied. UndoImport takes all of it back.
func (f *File) Import(r io.Reader, how Taking) (Imported, error) {
	var done Imported
	err := f.change(func(tx *sql.Tx) error {
		var last int64
		if err := tx.QueryRow("SELECT coalesce(max(n), 0) FROM answers").Scan(&last); err != nil {
			return err
		}
		in := importing{tx: tx, names: numbers{}, drills: map[string]string{}, means: how.Means, meant: map[string]bool{}}
		in.id, in.note = NewID(), note{From: tidy(how.From), At: f.now().UnixMilli(), Closed: map[string]int64{}}
		var err error
		if in.find, err = tx.Prepare(findAnswer); err != nil {
			return err
		}
		defer in.find.Close()
		if in.insert, err = tx.Prepare(insertAnswer); err != nil {
			return err
		}
		defer in.insert.Close()
		if err := in.read(r); err != nil {
			return err
		}
		done = in.done
		if done.Added+done.Sessions+len(in.note.Closed) == 0 {
			return nil
		}
		done.ID = in.id
		if done.Added > 0 {
			if err := interleave(tx, last, in.came, f.now()); err != nil {
				return err
			}
			if err := rebuild(tx); err != nil {
				return err
			}
		}
		if f.Path() != "" { // what is copied is the file as it was: of this nobody sees anything yet
			if done.Copy, err = f.copyBefore("import"); err != nil {
				return err
			}
		}
		in.note.Copy = done.Copy
		return in.note.keep(tx, in.id)
	})
	if err != nil {
		return Imported{}, err
	}
	return done, nil
}

// importing is an import under way.
type importing struct {
	tx           *sql.Tx
	find, insert *sql.Stmt
	names        numbers           // items met so far
	drills       map[string]string // of these, where it is known
	means        func(item string) bool
	meant        map[string]bool // what it said
	came         []arrival       // the answers of the export, in their order
	begun        bool            // with JSON lines
	header       []column        // of a CSV file
	id           string          // of the import
	note         note
	done         Imported
}

// findAnswer says of an answer that is kept whether it is the same as an imported one.
const findAnswer = "SELECT at = ? AND result = ? AND given = ? AND items.id = ? FROM answers JOIN items ON items.n = item WHERE answers.id = ?"

// The errors of a file that is something else.
var (
	errNoExport = errors.New("this is no export of answers: one begins with a JSON object, or with the names of columns such as id,session,item")
	errDatabase = errors.New("this is a progress file itself, or another database: sparetone progress export --progress FILE writes what can be imported")
	errNothing  = errors.New("there is nothing in it")
)

// read takes in every line.
func (in *importing) read(r io.Reader) error {
	lines := bufio.NewReaderSize(r, longestLine)
	for n := 1; ; n++ {
		line, err := lines.ReadSlice('\n')
		if n == 1 && bytes.HasPrefix(line, magic) {
			return errDatabase
		}
		if n == 1 && errors.Is(err, bufio.ErrBufferFull) && line[0] != '{' {
			return errNoExport
		}
		if err != nil && err != io.EOF {
			if errors.Is(err, bufio.ErrBufferFull) {
				return fmt.Errorf("line %d: longer than %d bytes; nothing was imported", n, longestLine)
			}
			return fmt.Errorf("%w; nothing was imported", brief(err))
		}
		if n == 1 {
			line = bytes.TrimPrefix(line, []byte("\ufeff")) // a mark that some spreadsheets put first
		}
		if line = bytes.TrimRight(line, "\r\n"); len(bytes.TrimSpace(line)) > 0 {
			if err := in.line(line); err != nil {
				return fmt.Errorf("line %d: %w; nothing was imported", n, plain(err))
			}
		}
		if err == io.EOF && !in.begun && in.header == nil {
			return errNothing
		} else if err == io.EOF {
			return nil
		}
	}
}

func (in *importing) line(line []byte) error {
	switch {
	case in.header != nil:
		return in.row(line)
	case line[0] == '{':
		in.begun = true
		return in.object(line)
	case !in.begun:
		return in.columns(line)
	}
	return errors.New("this is not a JSON object")
}

// object takes in a line of JSON.
func (in *importing) object(line []byte) error {
	var kind struct {
		Kind string `json:"kind"`
	}
	if !json.Valid(line) {
		return errors.New("this is not a whole JSON object")
	}
	_ = json.Unmarshal(line, &kind) // a kind that is no text is none of those below
	switch kind.Kind {
	case "session":
		return in.session(line)
	case "answer":
		var l answerLine
		if err := json.Unmarshal(line, &l); err != nil {
			return misread(err, `seed is a whole number in double quotes, such as "17"`)
		}
		return in.answer(l)
	}
	return errors.New(`the kind of an object is "session" or "answer"`)
}

// misread says which field of a JSON object cannot be read, and what would be right; other is what to say of
// those that are not what they look like.
func misread(err error, other string) error {
	wrong := (*json.UnmarshalTypeError)(nil)
	switch {
	case !errors.As(err, &wrong):
		return errors.New(other)
	case wrong.Type.Kind() == reflect.String:
		return fmt.Errorf("%s is a text in double quotes", wrong.Field)
	case wrong.Type.Kind() == reflect.Bool:
		return fmt.Errorf("%s is true or false, without quotes", wrong.Field)
	case wrong.Type.Kind() == reflect.Float64:
		return fmt.Errorf("%s is a number without quotes", wrong.Field)
	}
	return fmt.Errorf("%s is a whole number that fits, without quotes", wrong.Field)
}

func (in *importing) session(line []byte) error {
	var l sessionLine
	if err := json.Unmarshal(line, &l); err != nil {
		return misread(err, "began and ended are times such as 2026-03-04T18:30:00.000Z")
	}
	if l.ID == "" || tidy(l.ID) != l.ID || !(l.Minutes >= 0 && l.Minutes <= 24*60) {
		return errors.New("a session needs an id, when it began, and minutes of less than a day")
	}
	s := sessionRow{id: l.ID, began: written(l.Began).UnixMilli(), minutes: l.Minutes, by: in.id}
	if l.Ended != nil {
		s.ended = sql.NullInt64{Int64: written(*l.Ended).UnixMilli(), Valid: true}
	}
	var there, open bool
	err := sessionRows(in.tx, "WHERE id = ?", []any{l.ID}, func(is sessionRow) error {
		there, open = true, !is.ended.Valid
		return nil
	})
	if err != nil {
		return err
	}
	switch {
	case !there:
		in.done.Sessions++
		_, err = in.tx.Exec("INSERT INTO sessions (id, began, ended, minutes, seal, import) VALUES (?, ?, ?, ?, ?, ?)", s.id, s.began, s.ended, s.minutes, s.sum(), s.by)
	case open && s.ended.Valid:
		in.note.Closed[s.id] = s.ended.Int64
		_, err = in.tx.Exec("UPDATE sessions SET ended = ? WHERE id = ?", s.ended, s.id)
		err = errors.Join(err, sealSessions(in.tx, "WHERE id = ?", s.id))
	}
	return err
}

// columns takes in the names of a CSV file's columns.
func (in *importing) columns(line []byte) error {
	names, err := csv.NewReader(bytes.NewReader(line)).Read()
	if err != nil {
		return errNoExport
	}
	missing := map[string]bool{}
	byName := map[string]column{}
	for _, c := range columns {
		missing[c.name] = true
		byName[c.name] = c
	}
	for _, name := range names {
		c, known := byName[strings.TrimSpace(name)]
		if known && !missing[c.name] {
			return fmt.Errorf("the column %s is there twice", c.name)
		}
		if !known { // passed over
			c.set = func(*answerLine, string) error { return nil }
		}
		delete(missing, c.name)
		in.header = append(in.header, c)
	}
	if len(missing) == len(columns) {
		return errNoExport
	}
	for _, c := range columns {
		if missing[c.name] && !c.later {
			return fmt.Errorf("this is no export: there is no column %s", c.name)
		}
	}
	return nil
}

// row takes in a row of a CSV file. No text that is kept has a line break in it, so a row is a line.
func (in *importing) row(line []byte) error {
	cells, err := csv.NewReader(bytes.NewReader(line)).Read()
	if err != nil || len(cells) != len(in.header) {
		return fmt.Errorf("not a row of %d columns", len(in.header))
	}
	var l answerLine
	for i, c := range in.header {
		if err := c.set(&l, cells[i]); err != nil {
			return err
		}
	}
	return in.answer(l)
}

// answer adds an answer after all others, unless it is there.
func (in *importing) answer(l answerLine) error {
	k, err := l.kept()
	if err != nil {
		return err
	}
	if !in.knows(k.Item) {
		in.done.Foreign++
		in.done.Such = k.Item
	}
	var same bool
	err = in.find.QueryRow(k.At.UnixMilli(), int(k.Result), k.Given, k.Item, k.ID[:]).Scan(&same)
	switch {
	case err == nil && !same:
		return fmt.Errorf("the answer %s is another than the one that is kept under this id", l.ID)
	case err == nil:
		in.done.Known++
		in.came = append(in.came, arrival{at: k.At.UnixMilli(), id: k.ID})
		return nil
	case !errors.Is(err, sql.ErrNoRows):
		return err
	}
	if err := in.name(k.Answer); err != nil {
		return err
	}
	k.Import = in.id
	in.done.Added++
	done, err := in.insert.Exec(k.row(in.names)...)
	if err != nil {
		return err
	}
	n, err := done.LastInsertId()
	in.came = append(in.came, arrival{n: n, at: k.At.UnixMilli(), id: k.ID})
	return err
}

// knows reports whether an item means anything to this version.
func (in *importing) knows(item string) bool {
	if _, asked := in.meant[item]; !asked {
		in.meant[item] = in.means(item)
	}
	return in.meant[item]
}

// name makes sure that the items an answer speaks of have their rows.
func (in *importing) name(a Answer) error {
	_, other := in.names[a.TakenFor]
	if in.drills[a.Item] == a.Drill && (other || a.TakenFor == "") {
		return nil
	}
	names, err := name(in.tx, a)
	maps.Copy(in.names, names)
	in.drills[a.Item] = a.Drill
	return err
}
