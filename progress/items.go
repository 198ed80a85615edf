package progress

import (
	"database/sql"
	"fmt"
)

// numbers are the rows of items, by id.
type numbers map[string]int64

// name finds or makes the rows of the items that an answer speaks of. An item that was first met as
// a mistake gets its drill when it is first asked, and keeps it.
func name(tx *sql.Tx, a Answer) (numbers, error) {
	names := numbers{}
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
			return nil, refused{fmt.Errorf("%s belongs to the drill %s, not to %s", id, is, drill)}
		}
		names[id] = n
	}
	return names, nil
}

// refused is the error of a deed that no file would take.
type refused struct{ error }

// misfiled lists the items that are kept under a drill they do not belong to. Earlier versions took such from an
// import, and could then keep no answer to these items.
func misfiled(from reader) (items []string, err error) {
	err = each(from, "SELECT id, drill FROM items WHERE drill <> '' ORDER BY n", nil, func(row *sql.Rows) error {
		var id, drill string
		err := row.Scan(&id, &drill)
		if drill != drillOf(id) {
			items = append(items, id)
		}
		return err
	})
	return items, err
}
