package progress

import (
	"database/sql"
	"os"

	"sparetone/progress/whole"
)

// copyTo writes a whole and proven copy of a database to a path where nothing is, readable by its owner only, or nothing
// at all.
func copyTo(db *sql.DB, path string) error {
	var answers int
	if err := db.QueryRow("SELECT count(*) FROM answers").Scan(&answers); err != nil {
		return plain(err)
	}
	return whole.New(path, 0o600, func(file *os.File) error {
		if _, err := db.Exec("VACUUM INTO ?", file.Name()); err != nil {
			return plain(err)
		}
		return prove(file.Name(), answers)
	})
}

// prove checks a progress file that nobody else has open, and that it holds no fewer answers than it should.
// It leaves nothing beside it.
func prove(path string, answers int) error {
	db := newStill(path).open()
	defer db.Close()
	var h Health
	err := reading(db, func(tx *sql.Tx) error {
		version, err := known(tx)
		if err != nil {
			return err
		}
		if version < len(migrations) {
			return h.pages(tx) // what an older version wrote has to be read by its own rules
		}
		return h.check(tx)
	})
	if err != nil {
		return plain(err)
	}
	if err := h.Err(); err != nil {
		return err
	}
	if h.Answers < answers {
		return damaged("%d of %d answers can be copied", h.Answers, answers)
	}
	return nil
}
