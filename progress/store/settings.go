package store

import (
	"database/sql"
	"errors"

	"sparetone/progress/tables"
)

// Setting returns a setting, and whether it was ever set.
func (f *File) Setting(key string) (value string, set bool, err error) {
	err = f.db.QueryRow("SELECT value FROM settings WHERE key = ?", key).Scan(&value)
	if errors.Is(err, sql.ErrNoRows) {
		return "", false, nil
	}
	return value, err == nil, tables.Plain(err)
}

// SetSetting keeps a setting, or holds on to it as Record does.
func (f *File) SetSetting(key, value string) error {
	return f.keepDeed(deed{do: func(tx *sql.Tx) error { return tables.KeepSetting(tx, key, value) }})
}
