package progress

import (
	"database/sql"
	"errors"
)

const insertSetting = "INSERT INTO settings (key, value, seal) VALUES (?, ?, ?) ON CONFLICT DO UPDATE SET value = excluded.value, seal = excluded.seal"

// settingIn returns a setting, "" if there is none.
func settingIn(from reader, key string) (value string, err error) {
	err = from.QueryRow("SELECT value FROM settings WHERE key = ?", key).Scan(&value)
	if errors.Is(err, sql.ErrNoRows) {
		return "", nil
	}
	return value, err
}

// setOrClear keeps a setting, or takes it away where it is to be "".
func setOrClear(tx *sql.Tx, key, value string) (err error) {
	if value == "" {
		_, err = tx.Exec("DELETE FROM settings WHERE key = ?", key)
	} else {
		err = keepSetting(tx, key, value)
	}
	return err
}

// keepSetting keeps a setting.
func keepSetting(tx *sql.Tx, key, value string) error {
	_, err := tx.Exec(insertSetting, key, value, sealOf(key, value))
	return err
}
