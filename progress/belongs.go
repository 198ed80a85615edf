package progress

import (
	"database/sql"
	"fmt"
	"strings"
)

// drillOf returns the drill that an item belongs to: the first part of its id, such as spell of spell/major/ukulele.
func drillOf(item string) string {
	drill, _, _ := strings.Cut(item, "/")
	return drill
}

// belongs says what of an answer does not belong together, by its field, and what would be right.
func (a Answer) belongs() error {
	if want := drillOf(a.Item); a.Drill != want {
		return fmt.Errorf("drill is %q, but the item %s belongs to the drill %s", short(a.Drill), short(a.Item), short(want))
	}
	if a.TakenFor != "" && drillOf(a.TakenFor) != a.Drill {
		return fmt.Errorf("taken_for is %s, but an item is taken for another of its own drill, %s/…", short(a.TakenFor), short(a.Drill))
	}
	if a.Result == Right && a.TakenFor != "" && a.TakenFor != a.Item {
		return fmt.Errorf("taken_for is %s, but result is right, and what is right is taken for nothing else", short(a.TakenFor))
	}
	if a.Replays > 0 && a.Voice == "" {
		return fmt.Errorf("replays is %d, but voice is empty, and what is silent is not heard again", a.Replays)
	}
	return nil
}

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

// fileRightly puts every item under the drill it belongs to, and makes again what is derived.
func fileRightly(tx *sql.Tx) error {
	items, err := misfiled(tx)
	if err != nil {
		return err
	}
	for _, item := range items {
		if _, err := tx.Exec("UPDATE items SET drill = ? WHERE id = ?", drillOf(item), item); err != nil {
			return err
		}
		sums := map[[16]byte]int64{}
		err := answersWhere(tx, "WHERE a.id = ?", []any{item}, func(k kept) error {
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
	return rebuild(tx)
}
