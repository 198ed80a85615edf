package tables

import (
	"database/sql"
)

// Rebuild makes the derived tables again.
func Rebuild(tx *sql.Tx) error {
	d, err := derive(tx, func(AnswerRow) {})
	if err != nil {
		return err
	}
	names := ItemNumbers{}
	err = Each(tx, "SELECT id, n FROM items", nil, func(row *sql.Rows) error {
		var id string
		var n int64
		err := row.Scan(&id, &n)
		names[id] = n
		return err
	})
	if err != nil {
		return err
	}
	if _, err := tx.Exec("DELETE FROM memory; DELETE FROM weeks; DELETE FROM mistakes; DELETE FROM pace; DELETE FROM doubts; DELETE FROM foretold"); err != nil {
		return err
	}
	return StoreDerived(tx, d, names)
}
