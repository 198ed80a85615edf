package store

import (
	"database/sql"
	"errors"
	"fmt"
	"path/filepath"
	"time"

	"sparetone/progress/clock"
	"sparetone/progress/rescue"
	"sparetone/progress/tables"
	"sparetone/progress/whole"
)

// Restored says what came of a return to a copy.
type Restored struct {
	Copy    string // that was gone back to
	Answers int    // there are now
	Newer   int    // of these, not in the copy: they were read from the file that was set aside
	Lost    int    // answers of that file that could not be read; those in the copy are not among them
	AtLeast bool   // there may have been more
	Aside   string // where the file lies now that was there before; "" if there was none
}

// Restore goes back to a copy of the progress file at a path, and keeps what the present file has and the copy
// has not, as far as it can be read. An empty copy is the newest that is sound. The present file is set aside,
// never deleted.
func Restore(path, from string, now func() time.Time) (Restored, error) {
	path, err := tables.Resolve(path)
	if err != nil {
		return Restored{}, err
	}
	if err := finishRestore(path); err != nil {
		return Restored{}, err
	}
	base, got, err := copyToRestore(path, from, now)
	if err != nil {
		return got, err
	}
	defer base.Close()
	if !whole.NotThere(path) {
		if err := base.takeNewer(path, now, &got); err != nil {
			return got, fmt.Errorf("progress file %s: %w", path, tables.Plain(err))
		}
	}
	if err := base.db.QueryRow("SELECT count(*) FROM answers").Scan(&got.Answers); err != nil {
		return got, tables.Plain(err)
	}
	if err := base.SaveAs(path + restoring); err != nil {
		return got, err
	}
	if !whole.NotThere(path) {
		if got.Aside, err = asideOf(path); err != nil {
			return got, err
		}
	}
	return got, finishRestore(path)
}

// copyToRestore reads the copy to go back to, into memory.
func copyToRestore(path, from string, now func() time.Time) (base *File, got Restored, err error) {
	all := newestFirst(CopiesOf(path), now())
	if from != "" {
		for _, c := range all {
			if filepath.Base(c.Path) == from {
				from = c.Path
			}
		}
		base, err = OpenToRead(from, now)
		return base, Restored{Copy: from}, err
	}
	for _, c := range all {
		if base, err = OpenToRead(c.Path, now); err == nil {
			return base, Restored{Copy: c.Path}, nil
		}
	}
	if len(all) > 0 {
		return nil, got, fmt.Errorf("none of the %d copies of %s is sound, the newest because of this: %w", len(all), path, err)
	}
	return nil, got, fmt.Errorf("there is no copy of %s", path)
}

// takeNewer adds what the present file has and the copy has not.
func (f *File) takeNewer(path string, now func() time.Time, got *Restored) error {
	present, err := OpenToRead(path, now)
	if err != nil {
		var r rescue.Rescued
		if present, r, err = readDamaged(path, now); err != nil {
			got.AtLeast = true // nothing of it can be read
			return nil
		}
		got.Lost, got.AtLeast = r.Lost, r.AtLeast
	}
	defer present.Close()
	known, err := idsIn(f)
	if err != nil {
		return err
	}
	if got.Lost > 0 {
		// What could not be read may be in the copy.
		there, err := idsIn(present)
		if err != nil {
			return err
		}
		for id := range known {
			if !there[id] {
				got.Lost--
			}
		}
		got.Lost = max(0, got.Lost)
	}
	return f.change(func(tx *sql.Tx) error {
		var last int64
		if err := tx.QueryRow("SELECT coalesce(max(n), 0) FROM answers").Scan(&last); err != nil {
			return err
		}
		var came []clock.Arrival
		if err := looseAnswers(present.db, func(a rescue.LooseAnswer) error {
			id, _ := a.Fields["id"].([]byte)
			at, _ := a.Fields["at"].(int64)
			is := clock.Arrival{At: at}
			copy(is.Id[:], id)
			if known[string(id)] {
				came = append(came, is)
				return nil
			}
			added, err := a.AddIfWhole(tx)
			if added {
				got.Newer++
				err = tx.QueryRow("SELECT max(n) FROM answers").Scan(&is.N)
				came = append(came, is)
			}
			return err
		}); err != nil {
			return err
		}
		if err := copySessions(tx, present); err != nil {
			return err
		}
		if err := tables.Interleave(tx, last, came, f.now()); err != nil {
			return err
		}
		return tables.Rebuild(tx)
	})
}

// idsIn returns the ids of the answers of a file.
func idsIn(f *File) (map[string]bool, error) {
	ids := map[string]bool{}
	err := tables.Each(f.db, "SELECT id FROM answers", nil, func(row *sql.Rows) error {
		var id []byte
		err := row.Scan(&id)
		ids[string(id)] = true
		return err
	})
	return ids, tables.Plain(err)
}

// looseAnswers reads the answers of a file with whatever columns it has.
func looseAnswers(from tables.Reader, read func(rescue.LooseAnswer) error) error {
	columns, err := rescue.ColumnsOf(from, "answers")
	if err != nil {
		return err
	}
	return tables.Each(from, "SELECT a.id, a.drill, coalesce(b.id, ''), answers.* FROM answers JOIN items a ON a.n = item LEFT JOIN items b ON b.n = taken_for ORDER BY answers.n", nil,
		func(row *sql.Rows) error {
			a := rescue.LooseAnswer{Fields: map[string]any{}}
			values := make([]any, len(columns))
			into := []any{&a.Item, &a.Drill, &a.TakenFor}
			for i := range values {
				into = append(into, &values[i])
			}
			if err := row.Scan(into...); err != nil {
				return err
			}
			for i, column := range columns {
				a.Fields[column] = values[i]
			}
			return read(a)
		})
}

// copySessions adds the sessions and songs of another file, and takes over its settings: they are the present ones. Whose the
// file is stays as it was.
func copySessions(tx *sql.Tx, from *File) error {
	err := tables.SessionRows(from.db, "", nil, func(s tables.SessionRow) error {
		_, err := tx.Exec(`INSERT INTO sessions (id, began, ended, minutes, import) VALUES (?, ?, ?, ?, ?)
			ON CONFLICT DO UPDATE SET ended = coalesce(ended, excluded.ended)`, s.Id, s.Began, s.Ended, s.Minutes, s.By)
		return errors.Join(err, tables.SealSessions(tx, "WHERE id = ?", s.Id))
	})
	if err != nil {
		return err
	}
	if err := copySongs(tx, from); err != nil {
		return err
	}
	settings := map[string]string{}
	err = tables.Each(from.db, "SELECT key, value FROM settings", nil, func(row *sql.Rows) error {
		var key, value string
		err := row.Scan(&key, &value)
		if key != tables.IdKey && key != tables.AlikeKey {
			settings[key] = value
		}
		return err
	})
	for key, value := range settings {
		err = errors.Join(err, tables.KeepSetting(tx, key, value))
	}
	return err
}

// copySongs adds the songs of another file, as they were kept. Of each the latest holds, in whichever file it was.
func copySongs(tx *sql.Tx, from *File) error {
	has, err := tables.HasSongs(from.db)
	if err != nil || !has {
		return err
	}
	return tables.SongRows(from.db, "", nil, func(s tables.SongRow) error {
		if !s.Whole() {
			return nil
		}
		_, err := s.Add(tx)
		return err
	})
}
