package progress

import (
	"database/sql"
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"
	"time"
)

// Rescued says what could be read of a damaged file.
type Rescued struct {
	Answers  int
	Sessions int
	Lost     int  // answers that could not be read
	AtLeast  bool // there may have been more: what counts them is damaged too
}

// Rescue reads all that can still be read of a progress file, its log included, and writes it to a new one. An
// answer that is no longer what was written is not taken. The damaged file stays as it is.
func Rescue(path, to string, now func() time.Time) (Rescued, error) {
	if !notThere(to) {
		return Rescued{}, fmt.Errorf("%s is already there; nothing was written", to)
	}
	f, got, err := rescue(path, now)
	if err != nil {
		return got, fmt.Errorf("progress file %s: %w", path, err)
	}
	defer f.Close()
	return got, f.SaveAs(to)
}

// rescue reads what can be read of a file into memory.
func rescue(path string, now func() time.Time) (f *File, got Rescued, err error) {
	if path, err = resolve(path); err != nil {
		return nil, got, err
	}
	about, err := os.Stat(path)
	if err != nil {
		return nil, got, brief(err)
	}
	if !about.Mode().IsRegular() {
		return nil, got, errors.New("this is not an ordinary file")
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, got, brief(err)
	}
	defer file.Close()
	m, err := openImage(path, file, true)
	if err != nil {
		return nil, got, err
	}
	m.recoverLog()
	s := salvaged(m)
	if f, err = InMemory(now); err != nil {
		return nil, got, err
	}
	err = writing(f.db, func(tx *sql.Tx) (err error) {
		got, err = s.pour(tx)
		return err
	})
	if err == nil && got.Answers+got.Sessions == 0 {
		err = errors.New("no answer can be read in it; nothing was written")
	}
	if err != nil {
		f.Close()
		return nil, got, plain(err)
	}
	return f, got, nil
}

// pour writes what was salvaged into an empty file.
func (s *salvage) pour(tx *sql.Tx) (got Rescued, err error) {
	if _, err := tx.Exec("DELETE FROM settings"); err != nil { // such as whose it is: that comes from the damaged file
		return got, err
	}
	if err := s.pourSessions(tx); err != nil {
		return got, err
	}
	items, others := s.items()
	columns, err := columnsOf(tx, "answers")
	if err != nil {
		return got, err
	}
	number := func(v any) int64 { n, _ := v.(int64); return n }
	seen := map[string]bool{}
	for _, r := range s.answers() {
		if looksLike(tableLeaf, r.values) != "answers" {
			continue
		}
		a := looseAnswer{fields: map[string]any{}}
		for i, v := range r.values[:min(len(r.values), len(columns))] {
			a.fields[columns[i]] = v
		}
		id := string(a.fields["id"].([]byte))
		item, taken := number(a.fields["item"]), number(a.fields["taken_for"])
		if seen[id] {
			continue
		}
		// Where the list of items is damaged, its index may know better.
		for _, names := range [][2]itemName{{items[item], items[taken]}, {others[item], items[taken]}, {items[item], others[taken]}, {others[item], others[taken]}} {
			a.item, a.drill, a.takenFor = names[0].id, names[0].drill, names[1].id
			if a.item == "" || taken != 0 && a.takenFor == "" {
				continue
			}
			if seen[id], err = a.addIfWhole(tx); err != nil {
				return got, err
			}
			if seen[id] {
				got.Answers++
				break
			}
		}
	}
	total, least := s.total()
	got.Lost, got.AtLeast = max(0, total-got.Answers), least || s.m.log.torn
	if err := addSeals(tx); err != nil {
		return got, err
	}
	if err := settingsToIDs(tx); err != nil {
		return got, err
	}
	if err := giveID(tx); err != nil {
		return got, err
	}
	if err := tx.QueryRow("SELECT count(*) FROM sessions").Scan(&got.Sessions); err != nil {
		return got, err
	}
	return got, rebuild(tx)
}

// itemName is what an item is called.
type itemName struct{ id, drill string }

// items returns the names of items by their numbers: from their table, and for whatever their index has otherwise.
func (s *salvage) items() (names, others map[int64]itemName) {
	names, others = map[int64]itemName{}, map[int64]itemName{}
	for _, r := range s.rows["items"] {
		if looksLike(tableLeaf, r.values) == "items" {
			names[r.n] = itemName{r.values[1].(string), r.values[2].(string)}
		}
	}
	for _, r := range s.rows[itemIDs] {
		if looksLike(indexLeaf, r.values) == itemIDs {
			id := r.values[0].(string)
			drill, _, _ := strings.Cut(id, "/")
			others[r.values[1].(int64)] = itemName{id, drill}
		}
	}
	for n, name := range names {
		if _, there := others[n]; !there {
			others[n] = name
		}
	}
	return names, others
}

// pourSessions writes sessions and settings that are what was written.
func (s *salvage) pourSessions(tx *sql.Tx) error {
	for _, r := range s.rows["sessions"] {
		if looksLike(indexLeaf, r.values) != "sessions" {
			continue
		}
		v := append(slices.Clone(r.values), nil, nil)[:6]
		if _, err := loosely(tx, "INSERT OR IGNORE INTO sessions (id, began, ended, minutes, seal, import) VALUES (?, ?, ?, ?, ?, coalesce(?, ''))", v...); err != nil {
			return err
		}
	}
	for _, r := range s.rows["settings"] {
		if looksLike(indexLeaf, r.values) != "settings" {
			continue
		}
		v := append(r.values, nil)[:3]
		if _, err := loosely(tx, "INSERT OR IGNORE INTO settings (key, value, seal) VALUES (?, ?, ?)", v...); err != nil {
			return err
		}
	}
	var gone []string
	err := sessionRows(tx, "", nil, func(r sessionRow) error {
		if broken(r.seal, r.sum()) {
			gone = append(gone, r.id)
		}
		return nil
	})
	for _, id := range gone {
		if _, err := tx.Exec("DELETE FROM sessions WHERE id = ?", id); err != nil {
			return err
		}
	}
	if err != nil {
		return err
	}
	gone = nil
	err = each(tx, "SELECT key, value, seal FROM settings", nil, func(row *sql.Rows) error {
		var key, value string
		var seal sql.NullInt64
		err := row.Scan(&key, &value, &seal)
		if broken(seal, sealOf(key, value)) {
			gone = append(gone, key)
		}
		return err
	})
	for _, key := range gone {
		if _, err := tx.Exec("DELETE FROM settings WHERE key = ?", key); err != nil {
			return err
		}
	}
	return err
}

// looseAnswer is an answer by the columns it had in another file.
type looseAnswer struct {
	fields                map[string]any // but for n, item and taken_for
	item, drill, takenFor string
}

// addIfWhole adds an answer after all others, and reports whether it did: not if it is none, is not what was
// written, or is there.
func (a looseAnswer) addIfWhole(tx *sql.Tx) (added bool, err error) {
	if _, err := tx.Exec("SAVEPOINT loose"); err != nil {
		return false, err
	}
	added, err = a.add(tx)
	if err != nil || !added {
		_, undone := tx.Exec("ROLLBACK TO loose")
		err = errors.Join(err, undone)
	}
	_, released := tx.Exec("RELEASE loose")
	return added, errors.Join(err, released)
}

func (a looseAnswer) add(tx *sql.Tx) (bool, error) {
	names, err := name(tx, Answer{Item: a.item, Drill: a.drill, TakenFor: a.takenFor})
	if no := (refused{}); errors.As(err, &no) {
		return false, nil
	} else if err != nil {
		return false, err
	}
	columns, marks := []string{"item", "taken_for"}, "?, ?"
	args := []any{names[a.item], nil}
	if a.takenFor != "" {
		args[1] = names[a.takenFor]
	}
	for column, value := range a.fields {
		if column != "n" && column != "item" && column != "taken_for" {
			columns, marks, args = append(columns, column), marks+", ?", append(args, value)
		}
	}
	added, err := loosely(tx, "INSERT OR IGNORE INTO answers ("+strings.Join(columns, ", ")+") VALUES ("+marks+")", args...)
	if err != nil || !added {
		return false, err
	}
	whole := false
	err = answersWhere(tx, "WHERE answers.id = ?", []any{a.fields["id"]}, func(k kept) error {
		whole = k.fault() == ""
		return nil
	})
	return whole && err == nil, nil
}

// loosely writes a row that may be none, and reports whether it did.
func loosely(tx *sql.Tx, query string, args ...any) (bool, error) {
	done, err := tx.Exec(query, args...)
	if isOfSQLite(err) && errors.Is(plain(err), err) { // no fault of the disk: the row is none
		return false, nil
	} else if err != nil {
		return false, err
	}
	n, err := done.RowsAffected()
	return n > 0, err
}

// columnsOf lists the columns of a table, in their order.
func columnsOf(from reader, table string) (names []string, err error) {
	err = each(from, "SELECT name FROM pragma_table_info(?) ORDER BY cid", []any{table}, func(row *sql.Rows) error {
		var name string
		err := row.Scan(&name)
		names = append(names, name)
		return err
	})
	return names, err
}
