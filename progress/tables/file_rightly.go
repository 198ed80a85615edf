package tables

import (
	"database/sql"

	"sparetone/progress"
)

// RefileItems puts every item under the drill it belongs to, and makes again what is derived.
func RefileItems(tx *sql.Tx) error {
	items, err := misfiled(tx)
	if err != nil {
		return err
	}
	for _, item := range items {
		if _, err := tx.Exec("UPDATE items SET drill = ? WHERE id = ?", progress.DrillOf(item), item); err != nil {
			return err
		}
		sums := map[[16]byte]int64{}
		err := AnswersWhere(tx, "WHERE a.id = ?", []any{item}, func(k AnswerRow) error {
			sums[k.ID] = k.seal()
			return nil
		})
		if err != nil {
			return err
		}
		for id, sum := range sums {
			if _, err := tx.Exec("UPDATE answers SET seal = ? WHERE id = ?", sum, id[:]); err != nil {
				return err
			}
		}
	}
	return Rebuild(tx)
}
