package progress

import (
	"database/sql"
	_ "embed"
	"fmt"
)

// applicationID marks a file as ours, in the field that SQLite keeps for it: "sptn" in ASCII.
const applicationID = 0x7370746e

// migrations are the steps from an empty file to the present schema. A file's user_version is the
// number of steps behind it. A step that is published is never changed; a new one is added.
var migrations = []string{schema}

//go:embed schema.sql
var schema string

// prepare brings the schema up to date.
func (f *File) prepare() error {
	var version int
	if err := f.db.QueryRow("PRAGMA user_version").Scan(&version); err != nil {
		return err
	}
	if version > len(migrations) {
		return newer(version)
	}
	if version < len(migrations) {
		if version > 0 {
			if _, err := f.backup(fmt.Sprintf("%s-schema-%d", f.now().Format("2006-01-02-150405"), version)); err != nil {
				return err
			}
		}
		if err := f.migrate(); err != nil {
			return err
		}
	}
	if f.Path() == "" {
		return nil
	}
	// The file says whose it is before there is a log, so that inspect can read it without SQLite.
	_, err := f.db.Exec("PRAGMA journal_mode = WAL")
	return err
}

// migrate does the steps that are missing, as one whole.
func (f *File) migrate() error {
	return f.change(func(tx *sql.Tx) error {
		var version int // another program may have been first
		if err := tx.QueryRow("PRAGMA user_version").Scan(&version); err != nil {
			return err
		}
		for _, step := range migrations[min(version, len(migrations)):] {
			if _, err := tx.Exec(step); err != nil {
				return err
			}
		}
		_, err := tx.Exec(fmt.Sprintf("PRAGMA application_id = %d; PRAGMA user_version = %d", applicationID, len(migrations)))
		return err
	})
}
