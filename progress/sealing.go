package progress

import "database/sql"

// addSeals seals every row that has no seal yet.
func addSeals(tx *sql.Tx) error {
	if err := sealSessions(tx, "WHERE seal IS NULL"); err != nil {
		return err
	}
	settings := map[string]int64{}
	err := each(tx, "SELECT key, value FROM settings WHERE seal IS NULL", nil, func(row *sql.Rows) error {
		var key, value string
		err := row.Scan(&key, &value)
		settings[key] = sealOf(key, value)
		return err
	})
	if err != nil {
		return err
	}
	for key, sum := range settings {
		if _, err := tx.Exec("UPDATE settings SET seal = ? WHERE key = ?", sum, key); err != nil {
			return err
		}
	}
	sums := map[[16]byte]int64{}
	err = answersIn(tx, func(k kept) error {
		if !k.under.Valid {
			sums[k.ID] = k.seal()
		}
		return nil
	})
	if err != nil || len(sums) == 0 {
		return err
	}
	update, err := tx.Prepare("UPDATE answers SET seal = ? WHERE id = ?")
	if err != nil {
		return err
	}
	defer update.Close()
	for id, sum := range sums {
		if _, err := update.Exec(sum, id[:]); err != nil {
			return err
		}
	}
	return nil
}

// brokenRows says which sessions and settings are not what was written.
func brokenRows(from reader) (says []string, err error) {
	err = sessionRows(from, "", nil, func(s sessionRow) error {
		if broken(s.seal, s.sum()) {
			says = append(says, "a session is not what was written")
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	err = each(from, "SELECT key, value, seal FROM settings", nil, func(row *sql.Rows) error {
		var key, value string
		var seal sql.NullInt64
		err := row.Scan(&key, &value, &seal)
		if broken(seal, sealOf(key, value)) {
			says = append(says, "a setting is not what was written")
		}
		return err
	})
	return says, err
}
