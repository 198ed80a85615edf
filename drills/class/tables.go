package class

import (
	"bufio"
	_ "embed"
	"encoding/csv"
	"encoding/hex"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"sparetone/progress/whole"
)

// A school of thousands keeps its answers in a database. Four tables go there as CSV (RFC 4180), with a file of SQL beside them that says
// what each column is, loads them and has views with the figures of a class.

//go:embed schema.sql
var schema []byte

// SchemaFile is what the file of SQL is called.
const SchemaFile = "schema.sql"

// tables are the files that a class is written to.
type tables struct {
	students, sessions, answers, items *csv.Writer
	met                                map[string]bool // items
}

// The columns of each table. schema.sql says what they are.
var (
	studentColumns = []string{"student", "name", "listed"}
	sessionColumns = []string{"student", "session", "began", "ended", "minutes", "doubted"}
	answerColumns  = []string{"student", "answer", "session", "item", "at", "day", "result", "choices", "rung", "took_ms", "taken_for", "lesson", "played", "offered", "chosen", "doubted"}
	itemColumns    = []string{"item", "drill", "target", "tuning", "ear", "name", "known"}
	classColumns   = []string{"today"}
)

// WriteTables reads a class and writes its tables into a folder that is empty, one student after another.
func WriteTables(dir string, o Options, read func(Options) (*Report, error)) (r *Report, err error) {
	t := tables{met: map[string]bool{}}
	o.each = t.add
	table := func(name string, columns []string, to **csv.Writer, fill func() error) error {
		return whole.Synced(filepath.Join(dir, name+".csv"), 0o666, func(f *os.File) error {
			out := bufio.NewWriterSize(f, 1<<16)
			w := csv.NewWriter(out)
			*to = w
			if err := w.Write(columns); err != nil {
				return err
			}
			if err := fill(); err != nil {
				return err
			}
			if w.Flush(); w.Error() != nil {
				return w.Error()
			}
			return out.Flush()
		})
	}
	var class *csv.Writer
	err = table("students", studentColumns, &t.students, func() error {
		return table("items", itemColumns, &t.items, func() error {
			return table("sessions", sessionColumns, &t.sessions, func() error {
				return table("answers", answerColumns, &t.answers, func() error {
					return table("class", classColumns, &class, func() error {
						if r, err = read(o); err != nil {
							return err
						}
						for n, s := range r.Students {
							if err := t.students.Write([]string{s.key(n), s.Name, strconv.FormatBool(s.Listed)}); err != nil {
								return err
							}
						}
						return class.Write([]string{r.Today.Date().Format(time.DateOnly)})
					})
				})
			})
		})
	})
	if err != nil {
		return nil, err
	}
	return r, whole.Synced(filepath.Join(dir, SchemaFile), 0o666, func(f *os.File) error { _, err := f.Write(schema); return err })
}

// key is what a student is called in the tables: the id of the progress file, and of whom there is none the place on the page.
func (s *Student) key(n int) string {
	if s.ID != "" {
		return s.ID
	}
	return fmt.Sprintf("roster-%d", n+1)
}

// moment writes a time; one that is not known is empty, which a database reads as none.
func moment(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.UTC().Format("2006-01-02T15:04:05.000Z")
}

// add writes what a student practised.
func (t *tables) add(student string, p *practised) error {
	for _, s := range p.sessions {
		if s.ID == "" {
			continue // answers of no session
		}
		if err := t.sessions.Write([]string{student, s.ID, moment(s.Began), moment(s.Ended), fmt.Sprint(s.Minutes.Minutes()), strconv.FormatBool(s.Doubted)}); err != nil {
			return err
		}
	}
	for _, thing := range p.things {
		if t.met[thing.Item] {
			continue
		}
		t.met[thing.Item] = true
		if err := t.items.Write([]string{thing.Item, thing.Drill, thing.Target, thing.Tuning, strconv.FormatBool(thing.Ear), thing.Name, strconv.FormatBool(thing.Known)}); err != nil {
			return err
		}
	}
	row := make([]string, len(answerColumns))
	for _, a := range p.inOrder() {
		lesson, taken := "", ""
		if a.lesson >= 0 {
			lesson = p.lessons[a.lesson]
		}
		if a.takenFor >= 0 {
			taken = p.things[a.takenFor].Item
		}
		row = append(row[:0], student, hex.EncodeToString(a.id[:]), p.sessions[a.session].ID, p.things[a.thing].Item, moment(time.UnixMilli(a.at)), a.day.Date().Format(time.DateOnly),
			a.result.String(), strconv.Itoa(int(a.choices)), strconv.Itoa(int(a.rung)), strconv.Itoa(int(a.took)), taken, lesson, strconv.FormatBool(a.played), p.idsOf(a.offer), strconv.Itoa(int(a.chosen)), strconv.FormatBool(a.doubted))
		if err := t.answers.Write(row); err != nil {
			return err
		}
	}
	return nil
}
