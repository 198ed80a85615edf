package exchange

import (
	"database/sql"
	"maps"
	"slices"

	"sparetone/progress"
	"sparetone/progress/tables"
)

// settings makes out which value of each setting holds.
func (a *aligning) settings(joins bool) error {
	own, err := tables.Setting(a.tx, tables.IdKey)
	if err != nil {
		return err
	}
	carry := func(key string) progress.Carry {
		if key == tables.NameKey {
			return progress.Newest
		}
		return a.wishes.Carry(key)
	}
	err = tables.Each(a.tx, "SELECT key, value FROM settings", nil, func(row *sql.Rows) error {
		var key, value string
		err := row.Scan(&key, &value)
		if was, known := a.state.Chosen[key]; carry(key) != progress.Stays && !(known && was.Is == value) {
			c := chosen{value, max(a.now.UnixMilli(), was.At+1), a.state.Machine}
			switch {
			case carry(key) == progress.Once:
				c = chosen{Is: value}
			case joins && len(a.good) > 0:
				c.At = 0 // whatever others have chosen holds
			}
			a.state.Chosen[key] = c
		}
		return err
	})
	if err != nil {
		return err
	}
	for key, was := range a.state.Chosen { // what was taken away
		is, err := tables.Setting(a.tx, key)
		if err != nil {
			return err
		}
		if is == "" && was.Is != "" && carry(key) == progress.Newest {
			a.state.Chosen[key] = chosen{"", max(a.now.UnixMilli(), was.At+1), a.state.Machine}
		}
	}
	for _, t := range a.good {
		for _, key := range slices.Sorted(maps.Keys(t.File.chosen)) {
			c, was := t.File.chosen[key], a.state.Chosen[key]
			if carry(key) == progress.Stays || key == tables.NameKey && t.File.head.File != own || !c.since(was) {
				continue
			}
			a.state.Chosen[key] = c
			if err := tables.SetOrClear(a.tx, key, c.Is); err != nil {
				return err
			}
		}
	}
	return nil
}
