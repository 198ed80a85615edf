package exchange

import (
	"bytes"
	"database/sql"
	"encoding/hex"
	"errors"
	"fmt"
	"slices"

	"sparetone/progress"
	"sparetone/progress/clock"
	"sparetone/progress/exported"
	"sparetone/progress/tables"
)

// takeIn adds the sessions, songs and answers that others have and that are not here.
func (a *aligning) takeIn() error {
	known, err := whenGiven(a.tx)
	if err != nil {
		return err
	}
	notes, err := notesIn(a.tx)
	if err != nil {
		return err
	}
	own, err := tables.Setting(a.tx, tables.IdKey)
	if err != nil {
		return err
	}
	for _, t := range a.good {
		seen := seenFile{t.File.head.Mark, t.File.head.Writing, len(a.undone)}
		if a.state.Seen[t.File.head.Machine] == seen || t.Own && !t.Copy && !t.Stale {
			continue
		}
		tag := "" // that answers have which were given there
		if t.File.head.File != own {
			for _, n := range notes {
				if slices.Contains(n.Mine, t.File.head.File) {
					tag = n.id
				}
			}
		}
		if err := a.takeFile(t, tag, known); err != nil {
			return err
		}
		if t.Err == nil && !t.Own && seen.Writing >= a.state.Seen[t.File.head.Machine].Writing {
			a.state.Seen[t.File.head.Machine] = seen
		}
	}
	if !a.between {
		return nil
	}
	return tables.Rebuild(a.tx)
}

// whenGiven returns when each answer was given, by its id, in milliseconds since 1970.
func whenGiven(from tables.Reader) (map[[16]byte]int64, error) {
	known := map[[16]byte]int64{}
	return known, tables.Each(from, "SELECT id, at FROM answers", nil, func(row *sql.Rows) error {
		var id []byte
		var at int64
		if err := row.Scan(&id, &at); err != nil {
			return err
		}
		if len(id) != 16 {
			return progress.Damaged("an answer has the id %s", hex.EncodeToString(id))
		}
		known[[16]byte(id)] = at
		return nil
	})
}

// takeFile takes in the sessions, songs and answers of a file, all of them or, where one is at fault, none. Answers that were given
// there get a tag.
func (a *aligning) takeFile(t *FileTaken, tag string, known map[[16]byte]int64) error {
	if _, err := a.tx.Exec("SAVEPOINT one_file"); err != nil {
		return err
	}
	f := takingFile{aligning: a, tag: tag, known: known}
	err := f.all(t)
	if err == nil {
		err = f.add()
	}
	if err == nil {
		t.Answers = len(f.fresh)
		_, err = a.tx.Exec("RELEASE one_file")
		return err
	}
	if tables.IsOfSQLite(err) {
		return err
	}
	for _, k := range f.fresh {
		delete(known, k.ID)
	}
	t.Sessions, t.Err = 0, fmt.Errorf("%w; nothing of it was taken in", err)
	_, err = a.tx.Exec("ROLLBACK TO one_file; RELEASE one_file")
	return err
}

// takingFile is a file whose sessions, songs and answers are taken in.
type takingFile struct {
	*aligning
	tag   string
	known map[[16]byte]int64
	came  []clock.Arrival // its history; what is new has no number yet
	fresh []tables.AnswerRow
}

func (f *takingFile) all(t *FileTaken) (err error) {
	return t.File.lines(func(line []byte) error {
		switch kindOf(line) {
		case "session":
			return f.session(t, line)
		case "song":
			return f.song(line)
		case "answer":
			return f.answer(line)
		}
		return nil
	})
}

// mostBehind is how many answers are added one by one at most: what is derived from more is sooner made again.
const mostBehind = 1000

// add adds the answers that are new. Where they all come after those that are here, as after practice on one machine and then the
// other, that is quick.
func (f *takingFile) add() error {
	var last, latest int64
	if err := f.tx.QueryRow("SELECT coalesce(max(n), 0), coalesce(max(at), 0) FROM answers").Scan(&last, &latest); err != nil || len(f.fresh) == 0 {
		return err
	}
	behind := len(f.fresh) <= mostBehind && !f.between
	for _, k := range f.fresh {
		at := k.At.UnixMilli()
		behind = behind && at > latest
		latest = at
	}
	if behind {
		for _, k := range f.fresh {
			if err := tables.Keep(f.tx, k); err != nil {
				return err
			}
		}
		return nil
	}
	f.between = true
	insert, err := f.tx.Prepare(tables.InsertAnswer)
	if err != nil {
		return err
	}
	defer insert.Close()
	numbers := map[[16]byte]int64{}
	items := newNaming(f.tx)
	for _, k := range f.fresh {
		if err := items.name(k.Answer); err != nil {
			return err
		}
		done, err := insert.Exec(k.Row(items.names)...)
		if err != nil {
			return err
		}
		if numbers[k.ID], err = done.LastInsertId(); err != nil {
			return err
		}
	}
	for i, c := range f.came {
		f.came[i].N = numbers[c.Id]
	}
	return tables.Interleave(f.tx, last, f.came, f.now)
}

// tagOf is the import that something belongs to here which belongs to an import there; there is none where that was taken back.
func (f *takingFile) tagOf(there string) (tag string, alive bool) {
	if there == "" {
		there = f.tag
	}
	return there, !f.undone[there]
}

// session takes in a session. Of two times at which one ended the later holds.
func (f *takingFile) session(t *FileTaken, line []byte) error {
	o, err := exported.ObjectOf(bytes.TrimSpace(line))
	if err != nil {
		return err
	}
	s, _, err := o.Session()
	if err != nil {
		return fmt.Errorf("session: %w", err)
	}
	by, err := o.Text("import")
	if err != nil {
		return err
	}
	tag, alive := f.tagOf(by)
	if !alive {
		return nil
	}
	s.By = tag
	var is tables.SessionRow
	if err := tables.SessionRows(f.tx, "WHERE id = ?", []any{s.Id}, func(row tables.SessionRow) error { is = row; return nil }); err != nil {
		return err
	}
	switch {
	case is.Id == "":
		t.Sessions++
		_, err = f.tx.Exec("INSERT INTO sessions (id, began, ended, minutes, seal, import) VALUES (?, ?, ?, ?, ?, ?)", s.Id, s.Began, s.Ended, s.Minutes, s.Sum(), s.By)
	case s.Ended.Valid && (!is.Ended.Valid || is.Ended.Int64 < s.Ended.Int64):
		_, err = f.tx.Exec("UPDATE sessions SET ended = ? WHERE id = ?", s.Ended, s.Id)
		err = errors.Join(err, tables.SealSessions(f.tx, "WHERE id = ?", s.Id))
	}
	return err
}

// song takes in a song as it was kept at one moment, unless it was kept later by the student: of what was kept before that nothing
// is needed any more.
func (f *takingFile) song(line []byte) error {
	o, err := exported.ObjectOf(bytes.TrimSpace(line))
	if err != nil {
		return err
	}
	s, err := o.Song()
	if err != nil {
		return fmt.Errorf("song: %w", err)
	}
	by, err := o.Text("import")
	if err != nil {
		return err
	}
	tag, alive := f.tagOf(by)
	row := tables.NewSongRow(s, tag)
	var later bool
	err = f.tx.QueryRow("SELECT EXISTS (SELECT 1 FROM songs WHERE song = ?1 AND import = '' AND (at, id) >= (?2, ?3))", s.Song, row.At, s.ID).Scan(&later)
	if err != nil || later || !alive {
		return err
	}
	if _, err := row.Add(f.tx); err != nil || tag != "" {
		return err
	}
	_, err = f.tx.Exec("DELETE FROM songs WHERE song = ?1 AND (at, id) < (?2, ?3)", s.Song, row.At, s.ID)
	return err
}

// answerID begins a line with an answer; the id follows.
const answerID = `{"kind":"answer","id":"`

// answer notes an answer that is new, unless it came with what was taken back.
func (f *takingFile) answer(line []byte) error {
	var id [16]byte
	if rest, ours := bytes.CutPrefix(line, []byte(answerID)); ours && len(rest) > 32 {
		if _, err := hex.Decode(id[:], rest[:32]); err == nil {
			if at, here := f.known[id]; here {
				f.came = append(f.came, clock.Arrival{At: at, Id: id})
				return nil
			}
		}
	}
	o, err := exported.ObjectOf(bytes.TrimSpace(line))
	if err != nil {
		return err
	}
	l, err := o.Answer()
	if err != nil {
		return fmt.Errorf("answer: %w", err)
	}
	k, err := l.Row()
	if err != nil {
		return fmt.Errorf("answer: %w", err)
	}
	by, err := o.Text("import")
	if err != nil {
		return err
	}
	tag, alive := f.tagOf(by)
	_, here := f.known[k.ID] // as where a file has it twice
	if !alive || here || f.undone[hex.EncodeToString(k.ID[:])] {
		return nil
	}
	k.Import = tag
	f.known[k.ID] = k.At.UnixMilli()
	f.came = append(f.came, clock.Arrival{At: k.At.UnixMilli(), Id: k.ID})
	f.fresh = append(f.fresh, k)
	return nil
}
