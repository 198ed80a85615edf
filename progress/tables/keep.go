package tables

import "database/sql"

// Keep adds an answer after all others, unless it is there, and brings up to date what is derived from it.
func Keep(tx *sql.Tx, k AnswerRow) error {
	var there bool
	if err := tx.QueryRow("SELECT EXISTS (SELECT 1 FROM answers WHERE id = ?)", k.ID[:]).Scan(&there); err != nil || there {
		return err
	}
	names, err := NameItems(tx, k.Answer)
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
	done, err := tx.Exec(InsertAnswer, k.Row(names)...)
	if err != nil {
		return err
	}
	if k.N, err = done.LastInsertId(); err != nil {
		return err
	}
	if contested {
		anew, err := DoubtsAnew(tx)
		if err != nil {
			return err
		}
		if doubted = anew.Of(k.N, k.At); !doubted { // then others are
			return Rebuild(tx)
		}
	}
	if doubted {
		d.Doubt(k.N, k.Answer)
	} else {
		d.Add(k.Answer, k.Day)
	}
	return StoreDerived(tx, d, names)
}
