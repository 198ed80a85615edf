package store

import (
	"database/sql"
	"os"

	"sparetone/progress"
	"sparetone/progress/tables"
	"sparetone/progress/whole"
)

// copyTo writes a whole and proven copy of a database to a path where nothing is, readable by its owner only, or nothing
// at all.
func copyTo(db *sql.DB, path string) error {
	var answers int
	if err := db.QueryRow("SELECT count(*) FROM answers").Scan(&answers); err != nil {
		return tables.Plain(err)
	}
	return whole.New(path, 0o600, func(file *os.File) error {
		if _, err := db.Exec("VACUUM INTO ?", file.Name()); err != nil {
			return tables.Plain(err)
		}
		return prove(file.Name(), answers)
	})
}

// prove checks a progress file that nobody else has open, and that it holds no fewer answers than it should.
// It leaves nothing beside it.
func prove(path string, answers int) error {
	db := tables.NewStillConnector(path).Open()
	defer db.Close()
	var h tables.Health
	err := tables.Read(db, func(tx *sql.Tx) error {
		version, err := tables.Version(tx)
		if err != nil {
			return err
		}
		if version < len(tables.Migrations) {
			return h.Pages(tx) // what an older version wrote has to be read by its own rules
		}
		return h.Check(tx)
	})
	if err != nil {
		return tables.Plain(err)
	}
	if err := h.Err(); err != nil {
		return err
	}
	if h.Answers < answers {
		return progress.Damaged("%d of %d answers can be copied", h.Answers, answers)
	}
	return nil
}
