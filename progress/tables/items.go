package tables

import (
	"database/sql"
	"fmt"

	"sparetone/progress"
)

// ItemNumbers are the rows of items, by id.
type ItemNumbers map[string]int64

// NameItems finds or makes the rows of the items that an answer speaks of. An item that was first met as
// a mistake gets its drill when it is first asked, and keeps it.
func NameItems(tx *sql.Tx, a progress.Answer) (ItemNumbers, error) {
	names := ItemNumbers{}
	for id, drill := range map[string]string{a.TakenFor: "", a.Item: a.Drill} {
		if id == "" {
			continue
		}
		var n int64
		var is string
		err := tx.QueryRow(`INSERT INTO items (id, drill) VALUES (?, ?)
			ON CONFLICT DO UPDATE SET drill = iif(drill = '', excluded.drill, drill) RETURNING n, drill`, id, drill).Scan(&n, &is)
		if err != nil {
			return nil, err
		}
		if drill != "" && is != drill {
			return nil, Refused{fmt.Errorf("%s belongs to the drill %s, not to %s", id, is, drill)}
		}
		names[id] = n
	}
	return names, nil
}

// Refused is the error of a deed that no file would take.
type Refused struct{ error }

// misfiled lists the items that are kept under a drill they do not belong to. Earlier versions took such from an
// import, and could then keep no answer to these items.
func misfiled(from Reader) (items []string, err error) {
	err = Each(from, "SELECT id, drill FROM items WHERE drill <> '' ORDER BY n", nil, func(row *sql.Rows) error {
		var id, drill string
		err := row.Scan(&id, &drill)
		if drill != progress.DrillOf(id) {
			items = append(items, id)
		}
		return err
	})
	return items, err
}
