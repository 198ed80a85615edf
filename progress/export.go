package progress

import (
	"bufio"
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
	is, err := presentIn(f.db, f.now())
	if err != nil {
		return plain(err)
	}
	sessions, err := sessionsIn(f.db)
	if err != nil {
		return plain(err)
	}
	judged := slices.Clone(sessions)
	if err := is.doubts.ofSessions(f.db, judged); err != nil {
		return plain(err)
	}
	for i, s := range sessions {
		l := sessionLine{Kind: "session", ID: s.ID, Began: s.Began, Minutes: s.Minutes.Minutes(), Doubted: judged[i].Doubted || !judged[i].Began.Equal(s.Began)}
		if !s.Ended.IsZero() {
			l.Ended = &s.Ended
		}
		if err := enc.Encode(l); err != nil {
			return err
		}
	}
	if err := answersIn(f.db, func(k kept) error {
		k.doubted = is.doubts.of(k.n, k.At)
		return enc.Encode(k.line())
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
	is, err := presentIn(f.db, f.now())
	if err != nil {
		return plain(err)
	}
	err = answersIn(f.db, func(k kept) error {
		k.doubted = is.doubts.of(k.n, k.At)
		l := k.line()
		for i, c := range columns {
			row[i] = c.get(&l)
		}
		return out.Write(row)
	})
	out.Flush()
	if err != nil {
		return plain(err)
	}
	return out.Error()
}
