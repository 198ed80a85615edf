package tables

import (
	"database/sql"
	"errors"
)

const insertSetting = "INSERT INTO settings (key, value, seal) VALUES (?, ?, ?) ON CONFLICT DO UPDATE SET value = excluded.value, seal = excluded.seal"

// AlikeKey is the key of the setting that says what of other machines' practice is in this file. It speaks of this file alone: whoever
// takes settings over from another leaves it behind.
const AlikeKey = "sync/state"

// Setting returns a setting, "" if there is none.
func Setting(from Reader, key string) (value string, err error) {
	err = from.QueryRow("SELECT value FROM settings WHERE key = ?", key).Scan(&value)
	if errors.Is(err, sql.ErrNoRows) {
		return "", nil
	}
	return value, err
}

// SetOrClear keeps a setting, or takes it away where it is to be "".
func SetOrClear(tx *sql.Tx, key, value string) (err error) {
	if value == "" {
		_, err = tx.Exec("DELETE FROM settings WHERE key = ?", key)
	} else {
		err = KeepSetting(tx, key, value)
	}
	return err
}

// KeepSetting keeps a setting.
func KeepSetting(tx *sql.Tx, key, value string) error {
	_, err := tx.Exec(insertSetting, key, value, SealOf(key, value))
	return err
}
