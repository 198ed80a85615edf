package progress

import (
	"database/sql"
	"errors"
	"fmt"
	"path/filepath"
	"time"

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
	path, err := resolve(path)
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
			return got, fmt.Errorf("progress file %s: %w", path, plain(err))
		}
	}
	if err := base.db.QueryRow("SELECT count(*) FROM answers").Scan(&got.Answers); err != nil {
		return got, plain(err)
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
		var r Rescued
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
		var came []arrival
		if err := looseAnswers(present.db, func(a looseAnswer) error {
			id, _ := a.fields["id"].([]byte)
			at, _ := a.fields["at"].(int64)
			is := arrival{at: at}
			copy(is.id[:], id)
			if known[string(id)] {
				came = append(came, is)
				return nil
			}
			added, err := a.addIfWhole(tx)
			if added {
				got.Newer++
				err = tx.QueryRow("SELECT max(n) FROM answers").Scan(&is.n)
				came = append(came, is)
			}
			return err
		}); err != nil {
			return err
		}
		if err := copySessions(tx, present); err != nil {
			return err
		}
		if err := interleave(tx, last, came, f.now()); err != nil {
			return err
		}
		return rebuild(tx)
	})
}

// idsIn returns the ids of the answers of a file.
func idsIn(f *File) (map[string]bool, error) {
	ids := map[string]bool{}
	err := each(f.db, "SELECT id FROM answers", nil, func(row *sql.Rows) error {
		var id []byte
		err := row.Scan(&id)
		ids[string(id)] = true
		return err
	})
	return ids, plain(err)
}

// looseAnswers reads the answers of a file with whatever columns it has.
func looseAnswers(from reader, read func(looseAnswer) error) error {
	columns, err := columnsOf(from, "answers")
	if err != nil {
		return err
	}
	return each(from, "SELECT a.id, a.drill, coalesce(b.id, ''), answers.* FROM answers JOIN items a ON a.n = item LEFT JOIN items b ON b.n = taken_for ORDER BY answers.n", nil,
		func(row *sql.Rows) error {
			a := looseAnswer{fields: map[string]any{}}
			values := make([]any, len(columns))
			into := []any{&a.item, &a.drill, &a.takenFor}
			for i := range values {
				into = append(into, &values[i])
			}
			if err := row.Scan(into...); err != nil {
				return err
			}
			for i, column := range columns {
				a.fields[column] = values[i]
			}
			return read(a)
		})
}

// copySessions adds the sessions of another file, and takes over its settings: they are the present ones. Whose the
// file is stays as it was.
func copySessions(tx *sql.Tx, from *File) error {
	err := sessionRows(from.db, "", nil, func(s sessionRow) error {
		_, err := tx.Exec(`INSERT INTO sessions (id, began, ended, minutes, import) VALUES (?, ?, ?, ?, ?)
			ON CONFLICT DO UPDATE SET ended = coalesce(ended, excluded.ended)`, s.id, s.began, s.ended, s.minutes, s.by)
		return errors.Join(err, sealSessions(tx, "WHERE id = ?", s.id))
	})
	if err != nil {
		return err
	}
	settings := map[string]string{}
	err = each(from.db, "SELECT key, value FROM settings", nil, func(row *sql.Rows) error {
		var key, value string
		err := row.Scan(&key, &value)
		if key != idKey {
			settings[key] = value
		}
		return err
	})
	for key, value := range settings {
		err = errors.Join(err, keepSetting(tx, key, value))
	}
	return err
}
