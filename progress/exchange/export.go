package exchange

import (
	"bufio"
	"database/sql"
	"encoding/csv"
	"encoding/json"
	"io"
	"slices"
	"time"

	"sparetone/progress"
	"sparetone/progress/clock"
	"sparetone/progress/exported"
	"sparetone/progress/tables"
)

// WriteJSON writes every session, every song and every answer, an object a line, in the order of time. Settings
// stay behind: they belong to a machine. Now is what the machine's clock says.
func WriteJSON(from tables.Reader, now time.Time, w io.Writer) error {
	out := bufio.NewWriter(w)
	enc := json.NewEncoder(out)
	enc.SetEscapeHTML(false)
	is, err := marksOf(from, now)
	if err != nil {
		return err
	}
	for _, s := range is.sessions {
		l := exported.Session{Kind: "session", ID: s.ID, Began: s.Began, Minutes: s.Minutes.Minutes(), Doubted: s.Doubted, Owner: is.whose}
		if !s.Ended.IsZero() {
			l.Ended = &s.Ended
		}
		if err := enc.Encode(l); err != nil {
			return err
		}
	}
	songs, err := tables.LatestSongs(from)
	if err != nil {
		return err
	}
	for _, s := range songs {
		if err := enc.Encode(exported.SongOf(s, is.whose)); err != nil {
			return err
		}
	}
	if err := tables.Answers(from, func(k tables.AnswerRow) error {
		return enc.Encode(is.line(k))
	}); err != nil {
		return err
	}
	return out.Flush()
}

// WriteCSV writes every answer as a row, in the order of time, below the names of the columns.
func WriteCSV(from tables.Reader, now time.Time, w io.Writer) error {
	out := csv.NewWriter(w)
	row := make([]string, len(exported.Columns))
	for i, c := range exported.Columns {
		row[i] = c.Name
	}
	if err := out.Write(row); err != nil {
		return err
	}
	is, err := marksOf(from, now)
	if err != nil {
		return err
	}
	err = tables.Answers(from, func(k tables.AnswerRow) error {
		l := is.line(k)
		for i, c := range exported.Columns {
			row[i] = c.Cell(c.Get(&l))
		}
		return out.Write(row)
	})
	out.Flush()
	if err != nil {
		return err
	}
	return out.Error()
}

// marks are what an export says of every line: whose it is, and whether it is doubted, which is more than what the file
// itself doubts: whatever the times of a session and of its answers deny each other in. So whoever takes in an export may
// hold the others to it.
type marks struct {
	doubts   clock.Doubts
	sessions []progress.Session // as they were kept, and marked
	certain  map[string]tables.SessionRow
	whose    exported.Owner
}

func marksOf(from tables.Reader, now time.Time) (m marks, err error) {
	is, err := tables.Present(from, now)
	if err != nil {
		return m, err
	}
	m.doubts = is.Doubts
	whose, err := tables.WhoseIs(from)
	if err != nil {
		return m, err
	}
	m.whose = exported.Owner{File: whose.ID, Whose: whose.Name}
	if m.sessions, err = tables.Sessions(from); err != nil {
		return m, err
	}
	judged := slices.Clone(m.sessions)
	if err := tables.MarkDoubted(from, m.doubts, judged); err != nil {
		return m, err
	}
	m.certain = map[string]tables.SessionRow{}
	for i, s := range m.sessions {
		row := tables.SessionRow{Id: s.ID, Began: s.Began.UnixMilli()}
		if !s.Ended.IsZero() {
			row.Ended = sql.NullInt64{Int64: s.Ended.UnixMilli(), Valid: true}
		}
		if m.sessions[i].Doubted = judged[i].Doubted || !judged[i].Began.Equal(s.Began) || exported.EndsBeforeItBegan(row); !m.sessions[i].Doubted {
			m.certain[s.ID] = row
		}
	}
	return m, nil
}

// line returns an answer as it is exported.
func (m marks) line(k tables.AnswerRow) exported.Answer {
	l := exported.AnswerOf(k, m.doubted(k))
	l.Owner = m.whose
	return l
}

// doubted reports whether the time of an answer is.
func (m marks) doubted(k tables.AnswerRow) bool {
	s, certain := m.certain[k.Session]
	return m.doubts.Of(k.N, k.At) || certain && exported.Outside(s, k.At.UnixMilli()) != ""
}
