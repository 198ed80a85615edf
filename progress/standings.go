package progress

import "database/sql"

// Standings returns how well every item that was ever asked is known, the weak ones first, then by
// the chance of being right.
func (f *File) Standings() ([]Standing, error) {
	var d *derived
	var is present
	drills := map[string]string{}
	err := f.read(func(tx *sql.Tx) (err error) {
		if d, is, err = knownNow(tx, f.now(), allWeeks); err != nil {
			return err
		}
		return each(tx, "SELECT id, drill FROM items", nil, func(row *sql.Rows) error {
			var id, drill string
			err := row.Scan(&id, &drill)
			drills[id] = drill
			return err
		})
	})
	if err != nil {
		return nil, err
	}
	return d.standings(drills, is.today(), is.clock.Location()), nil
}
