package store

import (
	"database/sql"
	"strings"

	"sparetone/progress"
	"sparetone/progress/tables"
)

// SettingsUnder returns the settings whose key begins so, by what follows of their keys.
func (f *File) SettingsUnder(begins string) (map[string]string, error) {
	all := map[string]string{}
	err := tables.Each(f.db, "SELECT key, value FROM settings WHERE key >= ? AND key < ?", []any{begins, begins + "\U0010ffff"}, func(row *sql.Rows) error {
		var key, value string
		err := row.Scan(&key, &value)
		all[strings.TrimPrefix(key, begins)] = value
		return err
	})
	return all, tables.Plain(err)
}

// AnswersFor returns the answers that were asked for a lesson, in the order they were given.
func (f *File) AnswersFor(lesson string) (all []progress.Answer, err error) {
	err = tables.AnswersWhere(f.db, "WHERE lesson = ?", []any{lesson}, func(k tables.AnswerRow) error {
		all = append(all, k.Answer)
		return nil
	})
	return all, tables.Plain(err)
}
