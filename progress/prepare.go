package progress

import (
	"database/sql"
	"fmt"
)

// prepare brings the schema up to date.
func (f *File) prepare() error {
	var version int
	err := f.read(func(tx *sql.Tx) (err error) {
		version, err = known(tx)
		return err
	})
	if err != nil {
		return err
	}
	if version < len(migrations) {
		if version > 0 && f.Path() != "" {
			if _, err := f.copyBefore(fmt.Sprintf("schema-%d", version+1)); err != nil {
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
	_, err = f.db.Exec("PRAGMA journal_mode = WAL")
	return err
}

// migrate does the steps that are missing, as one whole.
func (f *File) migrate() error {
	return f.change(func(tx *sql.Tx) error {
		version, err := known(tx) // another program may have been first
		if err != nil {
			return err
		}
		if err := steps(tx, version, len(migrations)); err != nil {
			return err
		}
		if err := addSeals(tx); err != nil {
			return err
		}
		if err := settingsToIDs(tx); err != nil {
			return err
		}
		if err := giveID(tx); err != nil || version == 0 {
			return err
		}
		wrong, err := anyDoubted(tx)
		if err != nil || !wrong {
			return err
		}
		return rebuild(tx) // earlier versions believed every clock
	})
}
