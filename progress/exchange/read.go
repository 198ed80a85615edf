package exchange

import (
	"bufio"
	"bytes"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"slices"
	"time"

	"sparetone/progress"
	"sparetone/progress/exported"
	"sparetone/progress/pages"
	"sparetone/progress/tables"
	"sparetone/progress/whole"
)

// export is an export that is read, line by line.
type export struct {
	handed  func(o exported.Object, line []byte) error
	session func(o exported.Object) error
	song    func(o exported.Object) error
	answer  func(l exported.Answer) error
	begun   bool            // with JSON lines
	table   *exported.Table // of a CSV file
	scanned exported.Scanner
}

// LongestLine is the length in bytes that a line of an import may have: all texts of an answer at
// their longest, and every byte of them escaped.
const LongestLine = 64 << 10

// read reads every line.
func (x *export) read(r io.Reader) error {
	lines := bufio.NewReaderSize(r, LongestLine)
	for n := 1; ; n++ {
		line, err := lines.ReadSlice('\n')
		if n == 1 && bytes.HasPrefix(line, pages.Magic) {
			return exported.ErrDatabase
		}
		if n == 1 && slices.ContainsFunc(exported.UTF16Marks, func(mark []byte) bool { return bytes.HasPrefix(line, mark) }) {
			return exported.ErrUTF16
		}
		if n == 1 && errors.Is(err, bufio.ErrBufferFull) && line[0] != '{' {
			return exported.ErrNoExport
		}
		if err != nil && err != io.EOF {
			if errors.Is(err, bufio.ErrBufferFull) {
				return exported.LineError{Line: n, Says: fmt.Errorf("longer than %d bytes", LongestLine)}
			}
			return whole.Brief(err)
		}
		if n == 1 {
			line = bytes.TrimPrefix(line, []byte("\ufeff")) // a mark that some spreadsheets put first
		}
		if line = bytes.TrimRight(line, "\r\n"); len(bytes.TrimSpace(line)) > 0 {
			if err := x.line(line, n); err != nil {
				return exported.LineError{Line: n, Says: err}
			}
		}
		switch {
		case err != io.EOF:
		case x.table != nil:
			return x.table.Fault()
		case x.begun:
			return nil
		default:
			return exported.ErrNothing
		}
	}
}

// line reads a line, which has a number.
func (x *export) line(line []byte, n int) error {
	switch {
	case x.table != nil:
		l, is, err := x.table.Answer(line, n)
		if err != nil || !is {
			return err
		}
		return x.answer(l)
	case line[0] == '{':
		x.begun = true
		return x.object(line)
	case x.begun:
		return errors.New("this is not a JSON object")
	case n == 1 && exported.SeparatorLine.Match(line):
		return nil
	}
	t, err := exported.TableOf(line)
	x.table = &t
	return err
}

// object reads a line of JSON.
func (x *export) object(line []byte) error {
	if l, plain := x.scanned.Answer(line); plain {
		return x.answer(l)
	}
	o, err := exported.ObjectOf(line)
	if err != nil {
		return err
	}
	switch kind, _ := o.Text("kind"); kind {
	case handedInKind:
		return x.handed(o, line)
	case "session":
		return x.session(o)
	case "song":
		return x.song(o)
	case "answer":
		l, err := o.Answer()
		if err != nil {
			return err
		}
		return x.answer(l)
	}
	return errors.New(`kind is "session", "song" or "answer"`)
}

// Session is a session of an export; Of says whose it is, as far as the export does.
type Session struct {
	progress.Session // its times doubted where the export says so
	Of               progress.Whose
}

// Answer is an answer of an export; Of says whose it is, as far as the export does.
type Answer struct {
	progress.Answer
	Of      progress.Whose
	ID      [16]byte     // the same wherever the answer goes
	Day     progress.Day // where the student was
	Doubted bool         // its time cannot be true, as the export says
}

// Reading is what is done with what is in an export, as it comes; what is nil passes over it. An error ends the reading.
type Reading struct {
	HandedIn func(HandedIn) error // the first line of a file that was handed in
	Session  func(Session) error
	Answer   func(Answer) error
}

// Read reads an export, as JSON lines or CSV, or a file that was handed in; nothing is kept of it in any file. What is wrong with a
// line is an error that says which line and which field; what was handed on before it was good. An error of a function is returned as
// an error of its line.
func Read(r io.Reader, to Reading) error {
	x := export{
		handed: func(_ exported.Object, line []byte) error {
			of, _, err := ReadHandedIn(line)
			if err == nil {
				err = exported.Owner{File: of.File, Whose: of.Whose}.Check()
			}
			if err != nil || to.HandedIn == nil {
				return err
			}
			return to.HandedIn(of)
		},
		session: func(o exported.Object) error {
			row, doubted, err := o.Session()
			if err != nil {
				return err
			}
			of, err := o.Owner()
			if err == nil {
				err = of.Check()
			}
			if err != nil || to.Session == nil {
				return err
			}
			return to.Session(Session{sessionOf(row, doubted), progress.Whose{ID: of.File, Name: of.Whose}})
		},
		song: func(o exported.Object) error {
			_, err := o.Song()
			return err
		},
		answer: func(l exported.Answer) error {
			k, err := l.Row()
			if err == nil {
				err = l.Check()
			}
			if err != nil || to.Answer == nil {
				return err
			}
			return to.Answer(Answer{k.Answer, progress.Whose{ID: l.File, Name: l.Whose}, k.ID, k.Day, l.Doubted})
		},
	}
	return x.read(r)
}

// errPeeked ends a reading that has seen enough.
var errPeeked = errors.New("this is enough")

// Peek returns whose practice an export holds, by its first line that says so. One of a version that did not say it is known by its
// first answer, as its file is.
func Peek(r io.Reader) (of progress.Whose, err error) {
	enough := func(w progress.Whose) error {
		if of = w; of.ID == "" {
			return nil
		}
		return errPeeked
	}
	err = Read(r, Reading{
		HandedIn: func(h HandedIn) error { return enough(progress.Whose{ID: h.File, Name: h.Whose}) },
		Session:  func(s Session) error { return enough(s.Of) },
		Answer: func(a Answer) error {
			if a.Of.ID == "" {
				a.Of.ID = tables.IdFrom(a.ID[:])
			}
			return enough(a.Of)
		},
	})
	if errors.Is(err, errPeeked) {
		err = nil
	}
	return of, err
}

// sessionOf returns a session as it was practised.
func sessionOf(row tables.SessionRow, doubted bool) progress.Session {
	s := progress.Session{ID: row.Id, Began: time.UnixMilli(row.Began).UTC(), Minutes: time.Duration(row.Minutes * float64(time.Minute)), Doubted: doubted}
	if row.Ended != (sql.NullInt64{}) {
		s.Ended = time.UnixMilli(row.Ended.Int64).UTC()
	}
	return s
}
