package progress

import (
	"database/sql"
	"slices"
	"strings"
)

// Rescued says what could be read of a damaged file.
type Rescued struct {
	Answers  int
	Sessions int
	Lost     int  // answers that could not be read
	AtLeast  bool // there may have been more: what counts them is damaged too
}

// pour writes what can be read of an image, its log included, into an empty file.
func pour(tx *sql.Tx, m *image) (got Rescued, err error) {
	m.recoverLog()
	s := salvaged(m)
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
