package progress

import (
	"bufio"
	"database/sql"
	"encoding/csv"
	"encoding/json"
	"io"
	"slices"
)

// ExportJSON writes every session and every answer, an object a line, in the order of time. Settings
// stay behind: they belong to a machine.
func (f *File) ExportJSON(w io.Writer) error {
	out := bufio.NewWriter(w)
	enc := json.NewEncoder(out)
	enc.SetEscapeHTML(false)
	is, err := f.marks()
	if err != nil {
		return plain(err)
	}
	for _, s := range is.sessions {
		l := sessionLine{Kind: "session", ID: s.ID, Began: s.Began, Minutes: s.Minutes.Minutes(), Doubted: s.Doubted, whoseLine: is.whose}
		if !s.Ended.IsZero() {
			l.Ended = &s.Ended
		}
		if err := enc.Encode(l); err != nil {
			return err
		}
	}
	if err := answersIn(f.db, func(k kept) error {
		return enc.Encode(is.line(k))
	}); err != nil {
		return plain(err)
	}
	return out.Flush()
}

// ExportCSV writes every answer as a row, in the order of time, below the names of the columns.
func (f *File) ExportCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	row := make([]string, len(columns))
	for i, c := range columns {
		row[i] = c.name
	}
	if err := out.Write(row); err != nil {
		return err
	}
	is, err := f.marks()
	if err != nil {
		return plain(err)
	}
	err = answersIn(f.db, func(k kept) error {
		l := is.line(k)
		for i, c := range columns {
			row[i] = c.cell(c.get(&l))
		}
		return out.Write(row)
	})
	out.Flush()
	if err != nil {
		return plain(err)
	}
	return out.Error()
}

// marks are what an export says of every line: whose it is, and whether it is doubted, which is more than what the file itself doubts: whatever the times of a session and of its
// answers deny each other in. So whoever takes in an export may hold the others to it.
type marks struct {
	doubts   doubts
	sessions []Session // as they were kept, and marked
	certain  map[string]sessionRow
	whose    whoseLine
}

func (f *File) marks() (m marks, err error) {
	is, err := presentIn(f.db, f.now())
	if err != nil {
		return m, err
	}
	m.doubts = is.doubts
	whose, err := whoseIs(f.db)
	if err != nil {
		return m, err
	}
	m.whose = whoseLine{whose.ID, whose.Name}
	if m.sessions, err = sessionsIn(f.db); err != nil {
		return m, err
	}
	judged := slices.Clone(m.sessions)
	if err := m.doubts.ofSessions(f.db, judged); err != nil {
		return m, err
	}
	m.certain = map[string]sessionRow{}
	for i, s := range m.sessions {
		row := sessionRow{id: s.ID, began: s.Began.UnixMilli()}
		if !s.Ended.IsZero() {
			row.ended = sql.NullInt64{Int64: s.Ended.UnixMilli(), Valid: true}
		}
		if m.sessions[i].Doubted = judged[i].Doubted || !judged[i].Began.Equal(s.Began) || row.turned(); !m.sessions[i].Doubted {
			m.certain[s.ID] = row
		}
	}
	return m, nil
}

// line returns an answer as it is exported.
func (m marks) line(k kept) answerLine {
	k.doubted = m.doubted(k)
	l := k.line()
	l.whoseLine = m.whose
	return l
}

// doubted reports whether the time of an answer is.
func (m marks) doubted(k kept) bool {
	s, certain := m.certain[k.Session]
	return m.doubts.of(k.n, k.At) || certain && s.outside(k.At.UnixMilli()) != ""
}
