package progress

import "database/sql"

// keep adds an answer after all others, unless it is there, and brings up to date what is derived from it.
func keep(tx *sql.Tx, k kept) error {
	var there bool
	if err := tx.QueryRow("SELECT EXISTS (SELECT 1 FROM answers WHERE id = ?)", k.ID[:]).Scan(&there); err != nil || there {
		return err
	}
	names, err := name(tx, k.Answer)
	if err != nil {
		return err
	}
	d, err := loadAround(tx, k)
	if err != nil {
		return err
	}
	doubted, contested, err := doubtful(tx, k.At)
	if err != nil {
		return err
	}
	done, err := tx.Exec(insertAnswer, k.row(names)...)
	if err != nil {
		return err
	}
	if k.n, err = done.LastInsertId(); err != nil {
		return err
	}
	if contested {
		anew, err := doubtsIn(tx)
		if err != nil {
			return err
		}
		if doubted = anew.of(k.n, k.At); !doubted { // then others are
			return rebuild(tx)
		}
	}
	if doubted {
		d.doubt(k.n, k.Answer)
	} else {
		d.add(k.Answer, k.Day)
	}
	return storeDerived(tx, d, names)
}
