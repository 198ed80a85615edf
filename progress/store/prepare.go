package store

import (
	"database/sql"
	"fmt"

	"sparetone/progress/tables"
)

// prepare brings the schema up to date.
func (f *File) prepare() error {
	var version int
	err := f.read(func(tx *sql.Tx) (err error) {
		version, err = tables.Version(tx)
		return err
	})
	if err != nil {
		return err
	}
	if version < len(tables.Migrations) {
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
		version, err := tables.Version(tx) // another program may have been first
		if err != nil {
			return err
		}
		if err := tables.Migrate(tx, version, len(tables.Migrations)); err != nil {
			return err
		}
		if err := tables.AddSeals(tx); err != nil {
			return err
		}
		if err := tables.SettingsToIDs(tx); err != nil {
			return err
		}
		if err := tables.GiveID(tx); err != nil || version == 0 {
			return err
		}
		return tables.Rebuild(tx) // what earlier versions derived is not what this one does
	})
}
