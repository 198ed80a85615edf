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
	"strings"
)

// Imported says what an import came to.
type Imported struct {
	Added int // answers
	Known int // answers that were there already
}

// longestLine is the length in bytes that a line of an import may have: all texts of an answer at
// their longest, and every byte of them escaped.
const longestLine = 64 << 10

// Import adds what is in an export, as JSON lines or CSV, to the file. What is there already is left
// as it is, so the same export may come twice, and two machines that take in each other's hold the
// same. Nothing is changed unless all of it is good; the error names the line that is not.
func (f *File) Import(r io.Reader) (Imported, error) {
	var done Imported
	err := f.change(func(tx *sql.Tx) error {
		var last int64
		if err := tx.QueryRow("SELECT coalesce(max(n), 0) FROM answers").Scan(&last); err != nil {
			return err
		}
		in := importing{tx: tx, names: numbers{}, drills: map[string]string{}}
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
		if done.Added == 0 {
			return nil
		}
		if err := interleave(tx, last); err != nil {
			return err
		}
		return rebuild(tx)
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
	header       []column          // of a CSV file
	done         Imported
}

// findAnswer says of an answer that is kept whether it is the same as an imported one.
const findAnswer = "SELECT at = ? AND result = ? AND given = ? AND items.id = ? FROM answers JOIN items ON items.n = item WHERE answers.id = ?"

// read takes in every line.
func (in *importing) read(r io.Reader) error {
	lines := bufio.NewReaderSize(r, longestLine)
	for n := 1; ; n++ {
		line, err := lines.ReadSlice('\n')
		if err != nil && err != io.EOF {
			if errors.Is(err, bufio.ErrBufferFull) {
				err = fmt.Errorf("longer than %d bytes", longestLine)
			}
			return fmt.Errorf("line %d: %w; nothing was imported", n, err)
		}
		if n == 1 {
			line = bytes.TrimPrefix(line, []byte("\ufeff")) // a mark that some spreadsheets put first
		}
		if line = bytes.TrimRight(line, "\r\n"); len(bytes.TrimSpace(line)) > 0 {
			if err := in.line(line); err != nil {
				return fmt.Errorf("line %d: %w; nothing was imported", n, plain(err))
			}
		}
		if err == io.EOF {
			return nil
		}
	}
}

func (in *importing) line(line []byte) error {
	switch {
	case in.header != nil:
		return in.row(line)
	case line[0] == '{':
		return in.object(line)
	case in.done == Imported{}:
		return in.columns(line)
	}
	return errors.New("this is not a JSON object")
}

// object takes in a line of JSON.
func (in *importing) object(line []byte) error {
	var kind struct {
		Kind string `json:"kind"`
	}
	if err := json.Unmarshal(line, &kind); err != nil {
		return errors.New("this is not a whole JSON object")
	}
	switch kind.Kind {
	case "session":
		return in.session(line)
	case "answer":
		var l answerLine
		if err := json.Unmarshal(line, &l); err != nil {
			return fmt.Errorf("not an answer: %s", short(err.Error()))
		}
		return in.answer(l)
	}
	return errors.New("the kind of an object is session or answer")
}

func (in *importing) session(line []byte) error {
	var l sessionLine
	if err := json.Unmarshal(line, &l); err != nil {
		return fmt.Errorf("not a session: %s", short(err.Error()))
	}
	if l.ID == "" || tidy(l.ID) != l.ID || !sensible(l.Began) || l.Ended != nil && !sensible(*l.Ended) || !(l.Minutes >= 0 && l.Minutes <= 24*60) {
		return errors.New("a session needs an id, when it began, and minutes of less than a day")
	}
	var ended any
	if l.Ended != nil {
		ended = l.Ended.UnixMilli()
	}
	_, err := in.tx.Exec("INSERT INTO sessions VALUES (?, ?, ?, ?) ON CONFLICT DO UPDATE SET ended = coalesce(ended, excluded.ended)",
		l.ID, l.Began.UnixMilli(), ended, l.Minutes)
	return err
}

// columns takes in the names of a CSV file's columns.
func (in *importing) columns(line []byte) error {
	names, err := csv.NewReader(bytes.NewReader(line)).Read()
	if err != nil {
		return errors.New("this is neither JSON lines nor CSV")
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
	for _, c := range columns {
		if missing[c.name] {
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
	var same bool
	err = in.find.QueryRow(k.At.UnixMilli(), int(k.Result), k.Given, k.Item, k.ID[:]).Scan(&same)
	switch {
	case err == nil && !same:
		return fmt.Errorf("the answer %s is another than the one that is kept under this id", l.ID)
	case err == nil:
		in.done.Known++
		return nil
	case !errors.Is(err, sql.ErrNoRows):
		return err
	}
	if err := in.name(k.Answer); err != nil {
		return err
	}
	in.done.Added++
	_, err = in.insert.Exec(k.row(in.names)...)
	return err
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

// interleave puts the answers that were added after a number into their place in time among those
// before. Both keep their own order, whatever the clocks of the two machines did.
func interleave(tx *sql.Tx, last int64) error {
	type place struct{ n, at int64 }
	var before, added []place
	err := each(tx, "SELECT n, at FROM answers ORDER BY n", nil, func(row *sql.Rows) error {
		var p place
		err := row.Scan(&p.n, &p.at)
		if p.n <= last {
			before = append(before, p)
		} else {
			added = append(added, p)
		}
		return err
	})
	if err != nil {
		return err
	}
	move, err := tx.Prepare("UPDATE answers SET n = ? WHERE n = ?")
	if err != nil {
		return err
	}
	defer move.Close()
	for n := int64(1); len(before)+len(added) > 0; n++ {
		from := &before
		if len(before) == 0 || len(added) > 0 && added[0].at < before[0].at {
			from = &added
		}
		if p := (*from)[0]; p.n != n {
			if _, err := move.Exec(-n, p.n); err != nil { // out of the way of those not moved yet
				return err
			}
		}
		*from = (*from)[1:]
	}
	_, err = tx.Exec("UPDATE answers SET n = -n WHERE n < 0")
	return err
}
