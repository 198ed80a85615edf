package tables

import "database/sql"

// AddSeals seals every row that has no seal yet.
func AddSeals(tx *sql.Tx) error {
	if err := SealSessions(tx, "WHERE seal IS NULL"); err != nil {
		return err
	}
	settings := map[string]int64{}
	err := Each(tx, "SELECT key, value FROM settings WHERE seal IS NULL", nil, func(row *sql.Rows) error {
		var key, value string
		err := row.Scan(&key, &value)
		settings[key] = SealOf(key, value)
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
	err = Answers(tx, func(k AnswerRow) error {
		if !k.Under.Valid {
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

// BrokenRows says which sessions, songs and settings are not what was written.
func BrokenRows(from Reader) (says []string, err error) {
	err = SessionRows(from, "", nil, func(s SessionRow) error {
		if Broken(s.Seal, s.Sum()) {
			says = append(says, "a session is not what was written")
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	err = SongRows(from, "", nil, func(s SongRow) error {
		if !s.Whole() {
			says = append(says, "a song is not what was written")
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	err = Each(from, "SELECT key, value, seal FROM settings", nil, func(row *sql.Rows) error {
		var key, value string
		var seal sql.NullInt64
		err := row.Scan(&key, &value, &seal)
		if Broken(seal, SealOf(key, value)) {
			says = append(says, "a setting is not what was written")
		}
		return err
	})
	return says, err
}
