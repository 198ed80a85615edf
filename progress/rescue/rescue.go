package rescue

import (
	"database/sql"
	"slices"
	"strings"

	"sparetone/progress/pages"
	"sparetone/progress/tables"
)

// Rescued says what could be read of a damaged file.
type Rescued struct {
	Answers  int
	Sessions int
	Songs    int
	Lost     int  // answers that could not be read
	AtLeast  bool // there may have been more: what counts them is damaged too
}

// Pour writes what can be read of an image, its log included, into an empty file.
func Pour(tx *sql.Tx, m *pages.Image) (got Rescued, err error) {
	m.RecoverLog()
	s := salvaged(m)
	if _, err := tx.Exec("DELETE FROM settings"); err != nil { // such as whose it is: that comes from the damaged file
		return got, err
	}
	if err := s.pourSessions(tx); err != nil {
		return got, err
	}
	if err := s.pourSongs(tx); err != nil {
		return got, err
	}
	items, others := s.items()
	columns, err := ColumnsOf(tx, "answers")
	if err != nil {
		return got, err
	}
	number := func(v any) int64 { n, _ := v.(int64); return n }
	seen := map[string]bool{}
	for _, r := range s.answers() {
		if LooksLike(pages.TableLeaf, r.Values) != "answers" {
			continue
		}
		a := LooseAnswer{Fields: map[string]any{}}
		for i, v := range r.Values[:min(len(r.Values), len(columns))] {
			a.Fields[columns[i]] = v
		}
		id := string(a.Fields["id"].([]byte))
		item, taken := number(a.Fields["item"]), number(a.Fields["taken_for"])
		if seen[id] {
			continue
		}
		// Where the list of items is damaged, its index may know better.
		for _, names := range [][2]itemName{{items[item], items[taken]}, {others[item], items[taken]}, {items[item], others[taken]}, {others[item], others[taken]}} {
			a.Item, a.Drill, a.TakenFor = names[0].id, names[0].drill, names[1].id
			if a.Item == "" || taken != 0 && a.TakenFor == "" {
				continue
			}
			if seen[id], err = a.AddIfWhole(tx); err != nil {
				return got, err
			}
			if seen[id] {
				got.Answers++
				break
			}
		}
	}
	total, least := s.total()
	got.Lost, got.AtLeast = max(0, total-got.Answers), least || s.m.Log.Torn
	if err := tables.AddSeals(tx); err != nil {
		return got, err
	}
	if err := tables.SettingsToIDs(tx); err != nil {
		return got, err
	}
	if err := tables.GiveID(tx); err != nil {
		return got, err
	}
	if err := tx.QueryRow("SELECT count(*) FROM sessions").Scan(&got.Sessions); err != nil {
		return got, err
	}
	if err := tables.SongsKept(tx, &got.Songs); err != nil {
		return got, err
	}
	return got, tables.Rebuild(tx)
}

// itemName is what an item is called.
type itemName struct{ id, drill string }

// items returns the names of items by their numbers: from their table, and for whatever their index has otherwise.
func (s *salvage) items() (names, others map[int64]itemName) {
	names, others = map[int64]itemName{}, map[int64]itemName{}
	for _, r := range s.rows["items"] {
		if LooksLike(pages.TableLeaf, r.Values) == "items" {
			names[r.N] = itemName{r.Values[1].(string), r.Values[2].(string)}
		}
	}
	for _, r := range s.rows[ItemIDs] {
		if LooksLike(pages.IndexLeaf, r.Values) == ItemIDs {
			id := r.Values[0].(string)
			drill, _, _ := strings.Cut(id, "/")
			others[r.Values[1].(int64)] = itemName{id, drill}
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
		if LooksLike(pages.IndexLeaf, r.Values) != "sessions" {
			continue
		}
		v := append(slices.Clone(r.Values), nil, nil)[:6]
		if _, err := loosely(tx, "INSERT OR IGNORE INTO sessions (id, began, ended, minutes, seal, import) VALUES (?, ?, ?, ?, ?, coalesce(?, ''))", v...); err != nil {
			return err
		}
	}
	for _, r := range s.rows["settings"] {
		if LooksLike(pages.IndexLeaf, r.Values) != "settings" {
			continue
		}
		v := append(r.Values, nil)[:3]
		if _, err := loosely(tx, "INSERT OR IGNORE INTO settings (key, value, seal) VALUES (?, ?, ?)", v...); err != nil {
			return err
		}
	}
	var gone []string
	err := tables.SessionRows(tx, "", nil, func(r tables.SessionRow) error {
		if tables.Broken(r.Seal, r.Sum()) {
			gone = append(gone, r.Id)
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
	err = tables.Each(tx, "SELECT key, value, seal FROM settings", nil, func(row *sql.Rows) error {
		var key, value string
		var seal sql.NullInt64
		err := row.Scan(&key, &value, &seal)
		if tables.Broken(seal, tables.SealOf(key, value)) || key == tables.AlikeKey {
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

// pourSongs writes songs that are what was written.
func (s *salvage) pourSongs(tx *sql.Tx) error {
	for _, r := range s.rows["songs"] {
		if LooksLike(pages.IndexLeaf, r.Values) != "songs" {
			continue
		}
		if _, err := loosely(tx, "INSERT OR IGNORE INTO songs (id, song, at, chart, tuning, rich, shapes, sounds, import, seal) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)", r.Values...); err != nil {
			return err
		}
	}
	var gone []string
	err := tables.SongRows(tx, "", nil, func(row tables.SongRow) error {
		if !row.Whole() {
			gone = append(gone, row.ID)
		}
		return nil
	})
	for _, id := range gone {
		if _, err := tx.Exec("DELETE FROM songs WHERE id = ?", id); err != nil {
			return err
		}
	}
	return err
}
