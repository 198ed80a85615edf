package tables

import (
	"database/sql"

	"sparetone/progress"
)

// TakenBackKey is how the setting begins that counts what was taken back in a session; its id follows.
const TakenBackKey = "taken-back/"

// AddTakenBack counts more that was taken back in a session.
func AddTakenBack(tx *sql.Tx, session string, more progress.TakenBack) error {
	was, err := Setting(tx, TakenBackKey+session)
	if err != nil {
		return err
	}
	return KeepSetting(tx, TakenBackKey+session, progress.ParseTakenBack(was).Plus(more).String())
}

// TakenBack counts what was taken back in all sessions.
func TakenBack(from Reader) (all progress.TakenBack, err error) {
	err = Each(from, "SELECT value FROM settings WHERE key >= ? AND key < ?", []any{TakenBackKey, TakenBackKey + "\U0010ffff"}, func(row *sql.Rows) error {
		var value string
		err := row.Scan(&value)
		all = all.Plus(progress.ParseTakenBack(value))
		return err
	})
	return all, err
}
