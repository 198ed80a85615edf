package store

import (
	"database/sql"

	"sparetone/progress/clock"
	"sparetone/progress/memory"
	"sparetone/progress/tables"
)

// Standings returns how well every item that was ever asked is known, the weak ones first, then by
// the chance of being right.
func (f *File) Standings() ([]memory.Standing, error) {
	var d *memory.Derived
	var is clock.Present
	drills := map[string]string{}
	err := f.read(func(tx *sql.Tx) (err error) {
		if d, is, err = tables.DerivedNow(tx, f.now(), tables.AllWeeks); err != nil {
			return err
		}
		return tables.Each(tx, "SELECT id, drill FROM items", nil, func(row *sql.Rows) error {
			var id, drill string
			err := row.Scan(&id, &drill)
			drills[id] = drill
			return err
		})
	})
	if err != nil {
		return nil, err
	}
	return d.Standings(drills, is.Today(), is.Clock.Location()), nil
}
